// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// "How sure?": the chosen dataset's turnover curve against its measurement and its earlier
/// forecasts against what came, what the chosen box's day depends on, and what was not measured.

#include "ui/pages/page.h"

#include <string>
#include <vector>

class QComboBox;
class QLabel;

namespace ullage {

class BacktestChart;
class ChartSection;
class DriverBars;
class SentenceList;
class TextButton;
class TurnoverChart;

class SurePage : public Page {
    Q_OBJECT

public:
    explicit SurePage(QWidget* parent = nullptr);

    void setPrefixes(Prefixes prefixes) override;
    /// Datasets and boxes.
    void showItem(const QString& pointer) override;

    QString shownDataset() const;  ///< its pointer; empty without one
    QString shownBox() const;
    ChartSection* turnover() const { return turnover_; }
    ChartSection* live() const { return live_; }
    ChartSection* freed() const { return freed_; }
    ChartSection* drivers() const { return drivers_; }
    /// The sentences about what was not measured, from the top, each a button.
    const std::vector<TextButton*>& sentences() const;

protected:
    void refresh() override;
    void applyState() override;
    void retheme() override;

private:
    void clear(const QString& headline, const QString& detail);
    void showDataset();
    void showBox();
    void showSentences();
    void chooseDataset(int index);
    void chooseBox(int index);

    Chooser dataset_, box_;
    QLabel *state_text_ = nullptr, *unmeasured_title_ = nullptr, *unmeasured_note_ = nullptr;
    TurnoverChart* curve_ = nullptr;
    BacktestChart *live_chart_ = nullptr, *freed_chart_ = nullptr;
    DriverBars* bars_ = nullptr;
    ChartSection *turnover_ = nullptr, *live_ = nullptr, *freed_ = nullptr, *drivers_ = nullptr;
    SentenceList* list_ = nullptr;
    std::string shown_dataset_, shown_box_;
    Prefixes prefixes_ = Prefixes::decimal;
};

}  // namespace ullage
