// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// "Will it arrive?": the chosen send's headline and facts, its week, the limits of its link, the
/// age of its newest copy, and what an outage does that the user draws.
///
/// A drill is asked for by `outageAsked` and given back by `setDrill` or `setDrillProblems`; until
/// then the drill before it stays, paler. A new answer, or another send, asks again.

#include "core/outlook/outage_drill.h"
#include "ui/arrive/outage_span.h"
#include "ui/pages/page.h"

#include <memory>
#include <optional>
#include <vector>

class QComboBox;
class QFrame;
class QLabel;

namespace ullage {

class AgeChart;
class ChartSection;
class DrillChart;
class LimitChain;
class OutageFields;
class SentenceList;
class SpanBars;
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
    ChartSection* ages() const { return ages_; }
    ChartSection* through() const { return through_; }
    ChartSection* weekdays() const { return weekdays_; }
    ChartSection* firstCopy() const { return first_copy_; }
    ChartSection* restore() const { return restore_; }
    SentenceList* events() const { return events_; }
    QString backlogWords() const;
    OutageFields* outageFields() const { return outage_fields_; }
    /// What the drill says, beneath its picture; empty without one.
    QString drillWords() const;
    const std::optional<OutageSpan>& outage() const { return outage_; }

    void setDrill(std::shared_ptr<const OutageDrill> drill);
    void setDrillProblems(const Problems& problems);

signals:
    void outageAsked(const ullage::OutageQuestion& question);
    /// What was asked is not wanted any more.
    void outageDropped();

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
    const SendOutlook* shownSend() const;
    void makeOutage();
    void makeWays();
    void showWays();
    void setOutage(const std::optional<OutageSpan>& outage);
    void askAgain();
    void showAges();
    void showDrill();

    QWidget* chooser_row_ = nullptr;
    QComboBox* chooser_ = nullptr;
    QLabel* state_text_ = nullptr;
    QLabel *shape_ = nullptr, *status_ = nullptr, *route_ = nullptr, *headline_ = nullptr;
    QWidget* facts_ = nullptr;
    TileLayout* tiles_ = nullptr;
    std::vector<FactLabels> fact_labels_;
    QLabel *week_title_ = nullptr, *week_caption_ = nullptr, *limits_title_ = nullptr,
           *limits_caption_ = nullptr;
    WeekStrips* week_ = nullptr;
    LimitChain* limits_ = nullptr;
    AgeChart* age_chart_ = nullptr;
    DrillChart* drill_chart_ = nullptr;
    ChartSection *ages_ = nullptr, *through_ = nullptr;
    OutageFields* outage_fields_ = nullptr;
    SpanBars *weekday_bars_ = nullptr, *first_copy_bars_ = nullptr, *restore_bars_ = nullptr;
    ChartSection *weekdays_ = nullptr, *first_copy_ = nullptr, *restore_ = nullptr;
    QFrame *first_copy_rule_ = nullptr, *restore_rule_ = nullptr;
    QLabel *backlog_ = nullptr, *events_title_ = nullptr, *assumed_ = nullptr;
    SentenceList* events_ = nullptr;
    QLabel *outage_state_ = nullptr, *drill_words_ = nullptr;
    std::optional<OutageSpan> outage_;
    std::shared_ptr<const OutageDrill> drill_;
    bool drill_current_ = false;  ///< of the outage and the answer that are shown
    QString drill_problem_;
    std::shared_ptr<const Answer> asked_of_;
    std::string asked_send_, ways_of_;
    std::string shown_;
    Level level_ = Level::note;
    Prefixes prefixes_ = Prefixes::decimal;
};

}  // namespace ullage
