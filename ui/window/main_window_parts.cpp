// SPDX-License-Identifier: GPL-3.0-or-later
// What the window is made of, and how it is laid out. What it does is in main_window.cpp.
#include "ui/window/main_window.h"

#include "ui/compare/comparison_bar.h"
#include "ui/findings/findings_list.h"
#include "ui/forms/form_panel.h"
#include "ui/help/guide_text.h"
#include "ui/help/guide_window.h"
#include "ui/outline/outline_model.h"
#include "ui/outline/outline_pane.h"
#include "ui/window/about_dialog.h"
#include "ui/window/hair_splitter.h"
#include "ui/window/message_bar.h"
#include "ui/window/question_pages.h"
#include "ui/window/start_page.h"
#include "ui/window/window_settings.h"

#include <QActionGroup>
#include <QLabel>
#include <QListView>
#include <QMenuBar>
#include <QProgressBar>
#include <QPushButton>
#include <QStackedWidget>
#include <QStatusBar>
#include <QTreeView>
#include <QVBoxLayout>
#include <QWhatsThis>

namespace ullage::ui {

namespace {

constexpr int layout_version = 1;
constexpr int show_progress_after_ms = 400;
constexpr int grow_pale_after_ms = 150;
constexpr int first_width = 1280, first_height = 800;  ///< logical pixels

}  // namespace

// The parts ------------------------------------------------------------------------------------

void MainWindow::makeWorkspace() {
    auto* whole = new QWidget(this);
    auto* column = new QVBoxLayout(whole);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    message_ = new MessageBar(whole);
    stack_ = new QStackedWidget(whole);
    column->addWidget(message_);
    column->addWidget(stack_, 1);
    setCentralWidget(whole);

    start_ = new StartPage(stack_);
    stack_->addWidget(start_);

    panes_ = new HairSplitter(Qt::Horizontal, stack_);
    panes_->setObjectName(QStringLiteral("panes"));
    stack_->addWidget(panes_);
    outline_ = new OutlinePane(document_, *outline_model_, panes_);
    middle_ = new HairSplitter(Qt::Vertical, panes_);
    middle_->setObjectName(QStringLiteral("middle"));
    form_ = new FormPanel(document_, panes_);
    panes_->setStretchFactor(0, 0);
    panes_->setStretchFactor(1, 1);
    panes_->setStretchFactor(2, 0);

    auto* questions = new QWidget(middle_);
    makeQuestions(questions);
    findings_ = new FindingsList(middle_);
    middle_->setStretchFactor(0, 1);
    middle_->setStretchFactor(1, 0);
}

void MainWindow::makeQuestions(QWidget* room) {
    auto* under_each_other = new QVBoxLayout(room);
    under_each_other->setContentsMargins(0, 0, 0, 0);
    under_each_other->setSpacing(0);
    comparison_ = new ComparisonBar(kept_, room);
    pages_ = new QuestionPages(room);
    under_each_other->addWidget(comparison_);
    under_each_other->addWidget(pages_, 1);
    pages_->setObjectName(QStringLiteral("pages"));
    pages_->tabBar()->setObjectName(QStringLiteral("pages.bar"));
    pages_->tabBar()->setAccessibleName(tr("Questions"));
}

void MainWindow::makeStatusBar() {
    statusBar()->setSizeGripEnabled(false);
    state_label_ = new QLabel(this);
    state_label_->setObjectName(QStringLiteral("state"));
    state_label_->setContentsMargins(8, 2, 8, 2);
    progress_ = new QProgressBar(this);
    progress_->setObjectName(QStringLiteral("progress"));
    progress_->setAccessibleName(tr("Progress of the forecast"));
    progress_->setRange(0, 100);
    progress_->setTextVisible(false);
    progress_->setFixedSize(ems(this, 11), fontMetrics().height() - 4);
    progress_->hide();
    cancel_button_ = new QPushButton(tr("Cancel"), this);
    cancel_button_->setObjectName(QStringLiteral("cancelRun"));
    cancel_button_->setFlat(true);
    cancel_button_->hide();
    units_label_ = new QLabel(this);
    units_label_->setObjectName(QStringLiteral("units"));
    units_label_->setContentsMargins(8, 2, 8, 2);
    statusBar()->addWidget(state_label_);
    statusBar()->addWidget(progress_);
    statusBar()->addWidget(cancel_button_);
    statusBar()->addPermanentWidget(units_label_);
    show_progress_.setSingleShot(true);
    show_progress_.setInterval(show_progress_after_ms);
    grow_pale_.setSingleShot(true);
    grow_pale_.setInterval(grow_pale_after_ms);
}

void MainWindow::makeMenus() {
    makeFileMenu();
    makeEditMenu();
    makeViewMenu();
    makeHelpMenu();
}

void MainWindow::makeFileMenu() {
    QMenu* menu = menuBar()->addMenu(tr("&File"));
    const auto add = [&](const QString& text, const QString& name, const QKeySequence& key,
                         auto slot) {
        QAction* action = menu->addAction(text);
        action->setObjectName(name);
        action->setShortcut(key);
        connect(action, &QAction::triggered, this, slot);
        return action;
    };
    add(tr("&New"), QStringLiteral("file.new"), QKeySequence::New, [this] { newSite(); });
    add(tr("&Open…"), QStringLiteral("file.open"), QKeySequence::Open, [this] { chooseFile(); });
    recent_menu_ = menu->addMenu(tr("Open &recent"));
    recent_menu_->setObjectName(QStringLiteral("file.recent"));
    connect(recent_menu_, &QMenu::aboutToShow, this, &MainWindow::fillRecentMenu);
    add(tr("&Import a listing…"), QStringLiteral("file.listing"), {}, [this] { chooseListing(); });
    reload_ = add(tr("Read &listings again"), QStringLiteral("file.reload"), QKeySequence::Refresh,
                  [this] { document_.reloadEvidence(); });
    menu->addSeparator();
    save_ = add(tr("&Save"), QStringLiteral("file.save"), QKeySequence::Save, [this] { save(); });
    save_as_ = add(tr("Save &as…"), QStringLiteral("file.saveAs"), QKeySequence::SaveAs,
                   [this] { saveAs(); });
    menu->addSeparator();
    add(tr("&Quit"), QStringLiteral("file.quit"), QKeySequence::Quit, [this] { close(); });
}

void MainWindow::makeEditMenu() {
    QMenu* menu = menuBar()->addMenu(tr("&Edit"));
    QAction* undo = document_.undoStack()->createUndoAction(this, tr("&Undo"));
    undo->setObjectName(QStringLiteral("edit.undo"));
    undo->setShortcut(QKeySequence::Undo);
    QAction* redo = document_.undoStack()->createRedoAction(this, tr("&Redo"));
    redo->setObjectName(QStringLiteral("edit.redo"));
    redo->setShortcut(QKeySequence::Redo);
    menu->addActions({undo, redo});
    menu->addSeparator();
    menu->addMenu(outline_->addMenu());
    menu->addActions(outline_->itemActions());
    menu->addSeparator();
    keep_ = menu->addAction(tr("&Keep as comparison"));
    keep_->setObjectName(QStringLiteral("edit.keep"));
    keep_->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_K));
    connect(keep_, &QAction::triggered, this, &MainWindow::keepForComparison);
    cancel_ = menu->addAction(tr("&Cancel the forecast"));
    cancel_->setObjectName(QStringLiteral("edit.cancel"));
    cancel_->setShortcut(QKeySequence(Qt::Key_Escape));
    connect(cancel_, &QAction::triggered, &runner_, &AnswerRunner::cancel);
}

void MainWindow::makeViewMenu() {
    QMenu* menu = menuBar()->addMenu(tr("&View"));
    for (int i = 0; i < pages_->count(); ++i) {
        QAction* page = menu->addAction(pages_->tabText(i));
        page->setObjectName(QStringLiteral("view.page.%1").arg(i));
        page->setShortcut(QKeySequence(Qt::CTRL | static_cast<Qt::Key>(Qt::Key_1 + i)));
        connect(page, &QAction::triggered, this, [this, i] { pages_->setCurrentIndex(i); });
    }
    QAction* pane = menu->addAction(tr("&Next pane"));
    pane->setObjectName(QStringLiteral("view.nextPane"));
    pane->setShortcut(QKeySequence(Qt::Key_F6));
    connect(pane, &QAction::triggered, this, &MainWindow::nextPane);
    menu->addSeparator();

    const auto addChoice = [](QMenu* to, QActionGroup* group, const QString& text,
                              const QString& name, int value) {
        QAction* action = to->addAction(text);
        action->setObjectName(name);
        action->setCheckable(true);
        action->setData(value);
        group->addAction(action);
    };
    units_ = new QActionGroup(this);
    addChoice(menu, units_, tr("&Decimal units (TB)"), QStringLiteral("view.decimal"),
              static_cast<int>(Prefixes::decimal));
    addChoice(menu, units_, tr("&Binary units (TiB)"), QStringLiteral("view.binary"),
              static_cast<int>(Prefixes::binary));
    connect(units_, &QActionGroup::triggered, this, [this](QAction* action) {
        setPrefixes(static_cast<Prefixes>(action->data().toInt()));
    });
    menu->addSeparator();
    QMenu* theme = menu->addMenu(tr("&Theme"));
    themes_ = new QActionGroup(this);
    addChoice(theme, themes_, tr("&As the system"), QStringLiteral("view.system"),
              static_cast<int>(ThemeChoice::system));
    addChoice(theme, themes_, tr("&Light"), QStringLiteral("view.light"),
              static_cast<int>(ThemeChoice::light));
    addChoice(theme, themes_, tr("&Dark"), QStringLiteral("view.dark"),
              static_cast<int>(ThemeChoice::dark));
    connect(themes_, &QActionGroup::triggered, this, [this](QAction* action) {
        setTheme(static_cast<ThemeChoice>(action->data().toInt()));
    });
    makeLanguageMenu(menu);
    menu->addSeparator();
    QAction* reset = menu->addAction(tr("&Reset layout"));
    reset->setObjectName(QStringLiteral("view.reset"));
    connect(reset, &QAction::triggered, this, &MainWindow::resetLayout);
}

/// The widgets have their texts once: another language is there after the next start.
void MainWindow::makeLanguageMenu(QMenu* view) {
    QMenu* menu = view->addMenu(tr("Lan&guage"));
    auto* group = new QActionGroup(this);
    const QString key = QStringLiteral("view/language");
    const QString chosen = windowSettings().value(key).toString();
    const auto add = [&](const QString& text, const QString& code) {
        QAction* action = menu->addAction(text);
        action->setObjectName(QStringLiteral("view.language.") + code);
        action->setCheckable(true);
        action->setChecked(chosen == code);
        group->addAction(action);
        connect(action, &QAction::triggered, this, [this, key, code] {
            windowSettings().setValue(key, code);
            statusBar()->showMessage(tr("The language changes at the next start."), 8000);
        });
    };
    add(tr("&As the system"), QString());
    add(QStringLiteral("&English"), QStringLiteral("en"));
    add(QStringLiteral("&Deutsch"), QStringLiteral("de"));
}

void MainWindow::makeHelpMenu() {
    QMenu* menu = menuBar()->addMenu(tr("&Help"));
    QAction* guide = menu->addAction(tr("&Guide"));
    guide->setObjectName(QStringLiteral("help.guide"));
    guide->setShortcut(QKeySequence(Qt::Key_F1));
    connect(guide, &QAction::triggered, this, &MainWindow::showGuide);
    QAction* what = menu->addAction(tr("&What is this field?"));
    what->setObjectName(QStringLiteral("help.what"));
    what->setShortcut(QKeySequence(Qt::SHIFT | Qt::Key_F1));
    connect(what, &QAction::triggered, this, &MainWindow::explainFocused);
    menu->addSeparator();
    QAction* about = menu->addAction(tr("&About Ullage"));
    about->setObjectName(QStringLiteral("help.about"));
    connect(about, &QAction::triggered, this, [this] {
        auto* dialog = new AboutDialog(this);
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->open();
    });
}

void MainWindow::showGuide() {
    if (!guide_) guide_ = new GuideWindow(this);
    const bool at_start = stack_->currentWidget() == start_;
    guide_->showSection(guideSectionOfPage(at_start ? -1 : pages_->currentIndex()));
    guide_->show();
    guide_->raise();
    guide_->activateWindow();
}

void MainWindow::explainFocused() {
    for (QWidget* widget = focusWidget(); widget; widget = widget->parentWidget())
        if (!widget->whatsThis().isEmpty()) {
            QWhatsThis::showText(widget->mapToGlobal(QPoint(0, widget->height())),
                                 widget->whatsThis(), widget);
            return;
        }
    QWhatsThis::enterWhatsThisMode();
}

void MainWindow::connectParts() {
    connect(start_, &StartPage::openWanted, this, &MainWindow::chooseFile);
    connect(start_, &StartPage::listingWanted, this, &MainWindow::chooseListing);
    connect(start_, &StartPage::fileChosen, this, &MainWindow::openFile);
    connect(start_, &StartPage::sampleChosen, this, &MainWindow::openSample);
    connect(start_, &StartPage::siteWanted, this, [this](const Site& site) {
        if (mayLeave()) document_.start(site, true);
    });

    connect(outline_, &OutlinePane::itemChosen, this, &MainWindow::chooseItem);
    connect(outline_, &OutlinePane::formWanted, form_, &FormPanel::focusFirst);
    connect(outline_, &OutlinePane::refused, this, [this](const QString& why) {
        message_->show(MessageBar::Kind::fault, QStringLiteral("outline"), why);
    });
    connect(pages_, &QuestionPages::itemChosen, this, &MainWindow::showPointer);
    connect(pages_, &QuestionPages::eventWanted, this, &MainWindow::planEvent);
    connect(findings_, &FindingsList::chosen, this, [this](const QString& pointer) {
        const auto item = itemAt(pointer);
        if (!item) return;
        if (item->kind == ItemKind::box || item->kind == ItemKind::dataset)
            pages_->choose(QuestionPages::Which::fit);
        if (item->kind == ItemKind::send || item->kind == ItemKind::link)
            pages_->choose(QuestionPages::Which::arrive);
        if (item->kind == ItemKind::offer) pages_->choose(QuestionPages::Which::buy);
        showPointer(pointer);
    });

    connect(&open_file_, &OpenFile::changedOutside, this, &MainWindow::fileChangedOutside);
    connect(&open_file_, &OpenFile::openElsewhere, this, &MainWindow::fileOpenElsewhere, Qt::QueuedConnection);
    connect(&kept_, &KeptList::changed, this, &MainWindow::compare);
    connect(comparison_, &ComparisonBar::revertWanted, this, &MainWindow::revertToKept);

    connect(&document_, &SiteDocument::replaced, this, &MainWindow::siteReplaced);
    connect(&document_, &SiteDocument::siteChanged, this, &MainWindow::siteChanged);
    connect(&document_, &SiteDocument::problemsChanged, this, &MainWindow::showProblems);
    connect(&document_, &SiteDocument::pathChanged, this, &MainWindow::showTitle);
    connect(&document_, &SiteDocument::modifiedChanged, this, &MainWindow::setWindowModified);
    connect(&document_, &SiteDocument::stepped, this, [this](const QString& pointer) {
        if (const auto item = itemAt(pointer); item && !pointer.isEmpty()) outline_->choose(*item);
    });

    connect(&runner_, &AnswerRunner::answered, this,
            [this](const std::shared_ptr<const Answer>& got, bool) { present(got); });
    connect(&runner_, &AnswerRunner::failed, this, &MainWindow::showFailure);
    connect(&runner_, &AnswerRunner::stateChanged, this, &MainWindow::showState);
    connect(&runner_, &AnswerRunner::progressChanged, this,
            [this](double share) { progress_->setValue(static_cast<int>(share * 100)); });
    // A drill is of the site that the shown answer is of.
    connect(pages_, &QuestionPages::outageAsked, this, [this](const OutageQuestion& question) {
        if (!answer_) return;
        drills_.ask(std::make_shared<const Site>(answer_->site), document_.evidence(), settings_,
                    question);
    });
    connect(pages_, &QuestionPages::outageDropped, &drills_, &OutageRunner::cancel);
    connect(&drills_, &OutageRunner::drilled, pages_, &QuestionPages::setDrill);
    connect(&drills_, &OutageRunner::failed, pages_, &QuestionPages::setDrillProblems);
    connect(cancel_button_, &QPushButton::clicked, &runner_, &AnswerRunner::cancel);
    connect(&grow_pale_, &QTimer::timeout, this, [this] {
        pale_ = true;
        showState();
    });
    connect(&show_progress_, &QTimer::timeout, this, [this] {
        progress_->show();
        cancel_button_->show();
    });
}

// Layout ---------------------------------------------------------------------------------------

void MainWindow::restoreLayout() {
    const auto settings = windowSettings();
    resize(first_width, first_height);
    resetLayout();
    if (settings.value(QStringLiteral("window/version")).toInt() == layout_version) {
        restoreGeometry(settings.value(QStringLiteral("window/geometry")).toByteArray());
        panes_->restoreState(settings.value(QStringLiteral("window/panes")).toByteArray());
        middle_->restoreState(settings.value(QStringLiteral("window/middle")).toByteArray());
        pages_->setCurrentIndex(settings.value(QStringLiteral("window/page")).toInt());
    }
    showPrefixes(static_cast<Prefixes>(settings.value(QStringLiteral("view/prefixes")).toInt()));
}

ThemeChoice MainWindow::chosenTheme() {
    return static_cast<ThemeChoice>(windowSettings().value(QStringLiteral("view/theme")).toInt());
}

void MainWindow::keepLayout() {
    auto settings = windowSettings();
    settings.setValue(QStringLiteral("window/version"), layout_version);
    settings.setValue(QStringLiteral("window/geometry"), saveGeometry());
    settings.setValue(QStringLiteral("window/panes"), panes_->saveState());
    settings.setValue(QStringLiteral("window/middle"), middle_->saveState());
    settings.setValue(QStringLiteral("window/page"), pages_->currentIndex());
}

void MainWindow::resetLayout() {
    const int left = outline_->sizeHint().width(), right = form_->sizeHint().width();
    panes_->setSizes({left, std::max(400, width() - left - right), right});
    const int bottom = findings_->sizeHint().height();
    middle_->setSizes({std::max(300, height() - bottom), bottom});
}

void MainWindow::showTheme(ThemeChoice choice) {
    for (QAction* action : themes_->actions())
        action->setChecked(action->data().toInt() == static_cast<int>(choice));
}

void MainWindow::setTheme(ThemeChoice choice) {
    showTheme(choice);
    windowSettings().setValue(QStringLiteral("view/theme"), static_cast<int>(choice));
    applyTheme(choice);
}

void MainWindow::setPrefixes(Prefixes prefixes) {
    windowSettings().setValue(QStringLiteral("view/prefixes"), static_cast<int>(prefixes));
    showPrefixes(prefixes);
    if (answer_) present(answer_);
}

void MainWindow::showPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    for (QAction* action : units_->actions())
        action->setChecked(action->data().toInt() == static_cast<int>(prefixes));
    units_label_->setText(prefixes == Prefixes::decimal ? tr("Sizes in TB (10¹² bytes)")
                                                        : tr("Sizes in TiB (2⁴⁰ bytes)"));
    pages_->setPrefixes(prefixes);
    comparison_->setPrefixes(prefixes);
}

void MainWindow::nextPane() {
    const QList<QWidget*> panes{outline_->view(), pages_->tabBar(), findings_->view(), form_};
    qsizetype now = -1;
    for (qsizetype i = 0; i < panes.size(); ++i)
        if (panes[i] == focusWidget() || panes[i]->isAncestorOf(focusWidget())) now = i;
    if (pages_->isAncestorOf(focusWidget())) now = 1;
    for (qsizetype step = 1; step <= panes.size(); ++step) {
        QWidget* pane = panes[(now + step) % panes.size()];
        if (!pane->isVisible()) continue;
        if (pane == form_)
            form_->focusFirst();
        else
            pane->setFocus(Qt::TabFocusReason);
        return;
    }
}

}  // namespace ullage::ui
