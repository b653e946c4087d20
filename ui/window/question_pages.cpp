// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/question_pages.h"

#include "ui/pages/arrive_page.h"
#include "ui/pages/buy_page.h"
#include "ui/pages/fit_page.h"
#include "ui/pages/report_page.h"
#include "ui/pages/sure_page.h"

#include <QVBoxLayout>

namespace ullage::ui {

namespace {

/// What the tab key stops at, in its order.
QList<QWidget*> stopsOf(const QWidget& part) {
    QList<QWidget*> stops;
    for (QWidget* w = part.nextInFocusChain(); w != &part; w = w->nextInFocusChain())
        if (part.isAncestorOf(w) && (w->focusPolicy() & Qt::TabFocus)) stops << w;
    return stops;
}

void focusFirst(const QWidget& part) {
    for (QWidget* stop : stopsOf(part))
        if (stop->isVisible() && stop->isEnabled()) {
            stop->setFocus(Qt::OtherFocusReason);
            return;
        }
}

}  // namespace

QuestionPages::QuestionPages(QWidget* parent) : QuestionTabs(parent) {
    for (const QString& question : {tr("Will it fit?"), tr("Will it arrive?"), tr("What to buy?"), tr("How sure?"),
                                    tr("Report")}) {
        auto* room = new QWidget;
        auto* whole = new QVBoxLayout(room);
        whole->setContentsMargins(0, 0, 0, 0);
        addTab(room, question);
    }
    connect(this, &QTabWidget::currentChanged, this, &QuestionPages::make);
    make(currentIndex());
}

void QuestionPages::choose(Which which) { setCurrentIndex(static_cast<int>(which)); }

void QuestionPages::make(int index) {
    if (index < 0 || pages_[static_cast<std::size_t>(index)]) return;
    QWidget* const room = widget(index);
    Page* const page = newPage(static_cast<Which>(index), room);
    room->layout()->addWidget(page);
    pages_[static_cast<std::size_t>(index)] = page;
    connect(page, &Page::itemChosen, this, &QuestionPages::itemChosen);
    give(*page);
    page->show();
    putAfterTabs(*page);
    if (room->hasFocus()) focusFirst(*page);  // the tabs gave it to the room while that was bare
}

/// The tab key goes from the questions to what is on their page, and from there to what was made earlier.
void QuestionPages::putAfterTabs(Page& page) {
    QWidget* before = tabBar();
    for (QWidget* stop : stopsOf(page)) {
        setTabOrder(before, stop);
        before = stop;
    }
}

Page* QuestionPages::newPage(Which which, QWidget* room) {
    switch (which) {
        case Which::fit:
            fit_ = new FitPage(room);
            connect(fit_, &FitPage::eventWanted, this, &QuestionPages::eventWanted);
            return fit_;
        case Which::arrive:
            arrive_ = new ArrivePage(room);
            connect(arrive_, &ArrivePage::outageAsked, this, &QuestionPages::outageAsked);
            connect(arrive_, &ArrivePage::outageDropped, this, &QuestionPages::outageDropped);
            return arrive_;
        case Which::buy:
            return new BuyPage(room);
        case Which::sure:
            return new SurePage(room);
        case Which::report:
            break;
    }
    report_ = new ReportPage(room);
    return report_;
}

/// What the pages before it were given.
void QuestionPages::give(Page& page) {
    page.setPrefixes(prefixes_);
    if (&page == report_) report_->setFolder(folder_);
    page.setAnswer(answer_);
    page.setState(&page == report_ ? of_report_ : shown_);
    if (&page == fit_) fit_->setKept(kept_);
    for (const QString& pointer : std::as_const(items_)) page.showItem(pointer);
}

void QuestionPages::setAnswer(const std::shared_ptr<const Answer>& answer, const QString& folder) {
    answer_ = answer;
    folder_ = folder;
    if (!answer) items_.clear();
    if (report_) report_->setFolder(folder);
    const bool bare = fit_ && !fit_->gauge();
    for (Page* page : pages_)
        if (page) page->setAnswer(answer);
    if (bare && fit_->gauge()) putAfterTabs(*fit_);
}

void QuestionPages::setState(ShownState shown, ShownState of_report) {
    shown_ = shown;
    of_report_ = of_report;
    for (Page* page : pages_)
        if (page) page->setState(page == report_ ? of_report : shown);
}

void QuestionPages::setPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    for (Page* page : pages_)
        if (page) page->setPrefixes(prefixes);
}

void QuestionPages::setKept(const std::optional<KeptOutlook>& kept) {
    kept_ = kept;
    if (fit_) fit_->setKept(kept);
}

void QuestionPages::showItem(const QString& pointer) {
    if (answer_) {
        const QString list = pointer.section(u'/', 0, 1);
        items_.removeIf([&](const QString& earlier) { return earlier.section(u'/', 0, 1) == list; });
        items_ << pointer;
    }
    for (Page* page : pages_)
        if (page) page->showItem(pointer);
}

void QuestionPages::setDrill(const std::shared_ptr<const OutageDrill>& drill) {
    if (arrive_) arrive_->setDrill(drill);
}

void QuestionPages::setDrillProblems(const Problems& problems) {
    if (arrive_) arrive_->setDrillProblems(problems);
}

}  // namespace ullage::ui
