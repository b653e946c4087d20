// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// "What to buy?": what to order for the chosen box and by when, its offers side by side, what
/// longer lasting costs, where the space of its drives goes and what small blocks cost there.

#include "ui/pages/page.h"

#include <string>
#include <vector>

namespace ullage {

class BlockBars;
class ChartSection;
class FrontierChart;
class OfferCard;
class SpaceChart;
class TileLayout;

class BuyPage : public Page {
    Q_OBJECT

public:
    explicit BuyPage(QWidget* parent = nullptr);

    void setPrefixes(Prefixes prefixes) override;
    /// Boxes, and offers: shows their box.
    void showItem(const QString& pointer) override;

    const std::string& shownBox() const { return shown_; }  ///< its name; empty without one
    /// Best first.
    const std::vector<OfferCard*>& cards() const { return cards_; }
    ChartSection* frontier() const { return frontier_; }
    ChartSection* space() const { return space_; }
    ChartSection* blocks() const { return blocks_; }

protected:
    void refresh() override;
    void applyState() override;
    void retheme() override;

private:
    void clear(const QString& headline, const QString& detail);
    void showWords();
    void showCards();
    void showSpace();
    void chooseBox(int index);
    void chooseOffer(int offer);  ///< index in the outlook's offers

    Chooser box_, space_of_;
    QLabel *state_text_ = nullptr, *headline_ = nullptr, *detail_ = nullptr, *order_ = nullptr,
           *nothing_ = nullptr;
    QWidget* strip_ = nullptr;
    TileLayout* tiles_ = nullptr;
    std::vector<OfferCard*> cards_;
    std::vector<int> offer_of_card_;
    FrontierChart* frontier_chart_ = nullptr;
    SpaceChart* space_chart_ = nullptr;
    BlockBars* block_bars_ = nullptr;
    ChartSection *frontier_ = nullptr, *space_ = nullptr, *blocks_ = nullptr;
    QFrame *frontier_rule_ = nullptr, *space_rule_ = nullptr, *blocks_rule_ = nullptr;
    std::string chosen_;       ///< name of the box chosen by the user; empty: none
    std::string shown_;        ///< name of the box shown
    std::string shown_space_;  ///< name of the offer whose space is shown; empty: the box as it is
    Prefixes prefixes_ = Prefixes::decimal;
};

}  // namespace ullage
