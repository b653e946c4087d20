// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// One offer as a card, to stand beside others: how it stands in shape and word, 20 countable marks
/// (equally likely futures, filled where it lasts), its days, costs and what a rebuild risks. A
/// button: click, Space or Enter open the offer.
///
/// The cost is a bar on the scale of the dearest offer for the box: price filled, energy hatched,
/// replacement hollow. Invariant: every text lies within the card at any width.

#include "ui/buy/buy_text.h"
#include "ui/theme/drawn_button.h"
#include "ui/theme/drawn_widget.h"

#include <QFont>
#include <QRectF>

#include <array>
#include <vector>

namespace ullage {

/// Where a card's parts lie.
struct OfferGeometry {
    struct Text {
        enum class Role { name, status, lasting, label, value, note } role = Role::note;
        QString text;
        QRectF place;
    };
    QRectF shape;
    std::vector<Text> texts;
    std::array<QRectF, 20> marks;
    std::array<QRectF, 3> cost_bar;     ///< price, energy, replacement
    std::array<QRectF, 3> cost_swatch;  ///< beside the words of each
    double height = 0;
};

class OfferCard : public DrawnButton {
    Q_OBJECT

public:
    explicit OfferCard(QWidget* parent = nullptr);

    /// `dearest`: the greatest cost among the offers for the box.
    void setOffer(const Answer& answer, const OfferOutlook& offer, Prefixes prefixes,
                  double dearest);
    void setState(ShownState state);
    const OfferText& said() const { return text_; }
    Standing standing() const { return standing_; }
    int lasting() const { return lasting_; }  ///< of the 20 futures
    OfferGeometry geometryFor(double width) const;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    int heightForWidth(int width) const override;
    /// Logical pixels in which its figures fit.
    static int leastWidth(const QFont& font);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    OfferText text_;
    std::array<double, 3> cost_{};  ///< as shares of the dearest
    Standing standing_ = Standing::holds;
    int lasting_ = 0;
    ShownState state_ = ShownState::ready;
};

}  // namespace ullage
