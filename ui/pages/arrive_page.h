// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// "Will it arrive?": the chosen send's headline and facts, its week, the limits of its link.

#include "ui/pages/page.h"

#include <vector>

class QComboBox;
class QLabel;

namespace ullage {

class LimitChain;
class TileLayout;
class WeekStrips;

class ArrivePage : public Page {
    Q_OBJECT

public:
    explicit ArrivePage(QWidget* parent = nullptr);

    void setPrefixes(Prefixes prefixes) override;
    void showItem(const QString& pointer) override;

    QString shownItem() const;
    WeekStrips* week() const { return week_; }
    LimitChain* limits() const { return limits_; }
    QString headline() const;

protected:
    void refresh() override;
    void applyState() override;
    void retheme() override;

private:
    struct FactLabels {
        QWidget* tile = nullptr;
        QLabel *caption = nullptr, *value = nullptr, *sentence = nullptr;
    };
    void choose(int index);
    int siteIndex(const std::string& send) const;
    void showStatus();

    QWidget* chooser_row_ = nullptr;
    QComboBox* chooser_ = nullptr;
    QLabel *chooser_label_ = nullptr, *state_text_ = nullptr;
    QLabel *shape_ = nullptr, *status_ = nullptr, *route_ = nullptr, *headline_ = nullptr;
    QWidget* facts_ = nullptr;
    TileLayout* tiles_ = nullptr;
    std::vector<FactLabels> fact_labels_;
    QLabel *week_title_ = nullptr, *week_caption_ = nullptr, *limits_title_ = nullptr,
           *limits_caption_ = nullptr;
    WeekStrips* week_ = nullptr;
    LimitChain* limits_ = nullptr;
    std::string shown_;
    Level level_ = Level::note;
    Prefixes prefixes_ = Prefixes::decimal;
};

}  // namespace ullage
