// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The questions of the window, each with its page. A page is made when its question is first looked at, and is given
/// then what the others were given: at the start only one is seen.

#include "core/findings/findings.h"
#include "core/outlook/outage_drill.h"
#include "core/units/quantity_text.h"
#include "ui/compare/kept_list.h"
#include "ui/theme/drawn_widget.h"
#include "ui/window/question_tabs.h"

#include <QStringList>

#include <array>
#include <memory>
#include <optional>

namespace ullage {
class ArrivePage;
class FitPage;
class Page;
class ReportPage;
}  // namespace ullage

namespace ullage::ui {

class QuestionPages : public QuestionTabs {
    Q_OBJECT

public:
    enum class Which { fit, arrive, buy, sure, report };  ///< in the order of the tabs

    explicit QuestionPages(QWidget* parent = nullptr);

    void choose(Which which);
    /// Null: nothing yet. `folder`: where a report is saved first.
    void setAnswer(const std::shared_ptr<const Answer>& answer, const QString& folder);
    /// No report is written from a first look, so its page is told apart.
    void setState(ShownState shown, ShownState of_report);
    void setPrefixes(Prefixes prefixes);
    void setKept(const std::optional<KeptOutlook>& kept);
    /// A JSON pointer; each page takes up what it has a picture of. Without an answer there is none.
    void showItem(const QString& pointer);
    void setDrill(const std::shared_ptr<const OutageDrill>& drill);
    void setDrillProblems(const Problems& problems);

signals:
    void itemChosen(const QString& pointer);
    void eventWanted(const QString& box, ullage::Day day);
    void outageAsked(const ullage::OutageQuestion& question);
    void outageDropped();

private:
    static constexpr std::size_t count_of_pages = 5;

    void make(int index);
    Page* newPage(Which which, QWidget* room);
    void give(Page& page);
    void putAfterTabs(Page& page);

    std::array<Page*, count_of_pages> pages_{};  ///< null: not made yet
    FitPage* fit_ = nullptr;
    ArrivePage* arrive_ = nullptr;
    ReportPage* report_ = nullptr;

    std::shared_ptr<const Answer> answer_;
    QString folder_;
    ShownState shown_ = ShownState::nothing, of_report_ = ShownState::nothing;
    Prefixes prefixes_ = Prefixes::decimal;
    std::optional<KeptOutlook> kept_;
    QStringList items_;  ///< of each list of the site the pointer shown last; the newest last
};

}  // namespace ullage::ui
