// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The limits of one transfer as steps down: what is left of the line's rate after each, which one
/// binds, in words, and what would bind next and give, were that one lifted.

#include "core/link/goodput.h"
#include "ui/theme/drawn_widget.h"

#include <QRectF>
#include <QString>
#include <vector>

namespace ullage {

/// "Receive window ÷ round trip" for "window"; a key not known is shown as it is.
QString limit_step_words(const std::string& key);
/// "the receive window" for Limit::window.
QString limit_name(Limit limit);

class LimitChain : public DrawnWidget {
    Q_OBJECT

public:
    explicit LimitChain(QWidget* parent = nullptr);

    /// Values are copied; null: nothing to show yet. `bound_by` is the send's: it may be the hours.
    void setGoodput(const Goodput* goodput, Limit bound_by);

    /// "The share of the line binds: 75.2 Mbit/s. …"
    QString sentence() const;

    struct Row {
        QString name, rate, own;
        QRectF place, name_place, bar, rate_place, own_place;
        bool binding = false;
    };
    std::vector<Row> rowsFor(double width, const QFont& font, double* height = nullptr) const;

    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;
    void stateChanged() override { tell(); }

private:
    void tell();

    Goodput goodput_;
    Limit bound_by_ = Limit::rate;
    bool has_ = false;
};

}  // namespace ullage
