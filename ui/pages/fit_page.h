// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// "Will it fit?": a card for every box, the chosen box's gauge, and how it fills.

#include "ui/compare/kept_outlook.h"
#include "ui/pages/page.h"

#include <optional>
#include <vector>

class QFrame;
class QLabel;

namespace ullage {

class DaysUntilFullGauge;
class FillChart;
class GaugeCard;
class TileLayout;

class FitPage : public Page {
    Q_OBJECT

public:
    explicit FitPage(QWidget* parent = nullptr);

    void setPrefixes(Prefixes prefixes) override;
    void showItem(const QString& pointer) override;
    /// What is compared with; none: nothing is.
    void setKept(std::optional<KeptOutlook> kept);

signals:
    /// A date of the shown box's chart was double-clicked. `box`: its pointer.
    void eventWanted(const QString& box, ullage::Day day);

public:
    /// Pointer of the box shown; empty without one.
    QString shownItem() const;
    // Null until there is a box to show.
    DaysUntilFullGauge* gauge() const { return gauge_; }
    FillChart* chart() const { return chart_; }
    const std::vector<GaugeCard*>& cards() const { return cards_; }

protected:
    void refresh() override;
    void applyState() override;
    void retheme() override;

private:
    int siteIndex(const std::string& box) const;  ///< in the site's list; −1 if not there
    void choose(int card);
    void makeSheet();
    void showNone(const QString& headline, const QString& detail);
    void showKept();

    std::optional<KeptOutlook> kept_;
    Prefixes prefixes_ = Prefixes::decimal;
    QWidget* strip_ = nullptr;
    TileLayout* tiles_ = nullptr;
    std::vector<GaugeCard*> cards_;
    DaysUntilFullGauge* gauge_ = nullptr;
    FillChart* chart_ = nullptr;
    QFrame* line_ = nullptr;
    QLabel* notice_ = nullptr;
    std::string shown_;         ///< name of the box shown
    std::string not_forecast_;  ///< name of a box asked for that has no forecast
};

}  // namespace ullage
