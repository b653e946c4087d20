// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/main_window.h"

#include "core/measure/evidence.h"
#include "ui/compare/comparison_bar.h"
#include "ui/document/item_edits.h"
#include "ui/document/small_site.h"
#include "ui/findings/findings_list.h"
#include "ui/forms/form_panel.h"
#include "ui/import/import_dialog.h"
#include "ui/outline/outline_model.h"
#include "ui/outline/outline_pane.h"
#include "ui/theme/drawn_widget.h"
#include "ui/theme/words.h"
#include "ui/window/message_bar.h"
#include "ui/window/planned_event.h"
#include "ui/window/question_pages.h"
#include "ui/window/start_page.h"

#include <QCloseEvent>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QLocale>
#include <QMenu>
#include <QMessageBox>
#include <QMimeData>
#include <QProgressBar>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QTreeView>

namespace ullage::ui {

namespace {

// Subjects of the message bar.
const QString about_problems = QStringLiteral("problems");
const QString about_run = QStringLiteral("run");
const QString about_file = QStringLiteral("file");
const QString about_listing = QStringLiteral("listing");

constexpr std::size_t preview_rows = 6;  ///< of a listing

const QString site_suffix = QStringLiteral(".site.json");

QString describe(const BadInput& bad) {
    QStringList sentences;
    for (const Problem& problem : bad.problems)
        sentences << (problem.where.empty()
                          ? QString::fromStdString(problem.what)
                          : QStringLiteral("%1: %2").arg(QString::fromStdString(problem.where),
                                                         QString::fromStdString(problem.what)));
    constexpr int shown = 3;
    const qsizetype more = sentences.size() - shown;
    if (more > 0) {
        sentences = sentences.mid(0, shown);
        sentences << Words::plural(MainWindow::tr("and %n more.", nullptr, static_cast<int>(more)),
                                   more);
    }
    return sentences.join(QLatin1Char('\n'));
}

QString firstLocalFile(const QMimeData* data) {
    for (const QUrl& url : data->urls())
        if (url.isLocalFile()) return url.toLocalFile();
    return {};
}

}  // namespace

MainWindow::MainWindow(const Settings& settings, AnswerRunner::Compute compute,
                       OutageRunner::Drill drill, QWidget* parent)
    : QMainWindow(parent),
      settings_(settings),
      runner_(std::move(compute)),
      drills_(std::move(drill)),
      recovery_(document_),
      open_file_(document_),
      outline_model_(new OutlineModel(document_, this)) {
    setObjectName(QStringLiteral("mainWindow"));
    setAcceptDrops(true);
    // Before there is anything that would have to be dressed anew.
    const ThemeChoice theme = chosenTheme();
    applyTheme(theme);
    ask_to_leave_ = [this] {
        QMessageBox box(QMessageBox::Warning, tr("Unsaved work"),
                        tr("Save the changes to this site?"),
                        QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, this);
        box.setInformativeText(tr("They are lost otherwise."));
        box.setDefaultButton(QMessageBox::Save);
        switch (box.exec()) {
            case QMessageBox::Save:
                return Leave::save;
            case QMessageBox::Discard:
                return Leave::discard;
            default:
                return Leave::stay;
        }
    };
    ask_which_ = [this](const QStringList& names) {
        QMenu menu(this);
        menu.addSection(tr("Planned event of"));
        for (const QString& name : names)
            menu.addAction(QString(name).replace(QLatin1Char('&'), QLatin1String("&&")));
        const QAction* chosen = menu.exec(QCursor::pos());
        // The first action is the heading.
        return chosen ? static_cast<int>(menu.actions().indexOf(chosen)) - 1 : -1;
    };
    makeWorkspace();
    makeStatusBar();
    makeMenus();
    connectParts();
    restoreLayout();
    showTheme(theme);
    siteReplaced();
    siteChanged();
    showState();
}

MainWindow::~MainWindow() = default;

// Files ----------------------------------------------------------------------------------------

bool MainWindow::mayLeave() {
    form_->commitPending();
    if (!document_.isModified()) return true;
    switch (ask_to_leave_()) {
        case Leave::save:
            return save();
        case Leave::discard:
            return true;
        case Leave::stay:
            break;
    }
    return false;
}

void MainWindow::newSite() {
    if (!document_.isOpen())
        document_.start(emptySite());
    else if (mayLeave())
        document_.close();
}

void MainWindow::chooseFile() {
    const QString folder = document_.folder();
    const QString path = QFileDialog::getOpenFileName(
        this, tr("Open a site"), folder, tr("Sites (*%1);;All files (*)").arg(site_suffix));
    if (!path.isEmpty()) openFile(path);
}

void MainWindow::chooseListing() {
    const QString path =
        QFileDialog::getOpenFileName(this, tr("Import a snapshot listing"), document_.folder());
    if (!path.isEmpty()) importListing(path);
}

void MainWindow::openFile(const QString& path) {
    if (!mayLeave()) return;
    if (const auto bad = document_.open(path)) {
        message_->show(MessageBar::Kind::fault, about_file,
                       tr("%1 was not opened. %2").arg(QFileInfo(path).fileName(), describe(*bad)));
        return;
    }
    message_->clear(about_file);
    recent_.add(path);
    sayReadOnly();
}

void MainWindow::openSample(const QString& path) {
    if (!mayLeave()) return;
    if (const auto bad = document_.openCopy(path))
        message_->show(MessageBar::Kind::fault, about_file,
                       tr("%1 was not opened. %2").arg(QFileInfo(path).fileName(), describe(*bad)));
}

void MainWindow::offerLostWork() {
    const QList<LostWork> all = recovery_.lostWork();
    if (all.isEmpty()) return;
    const LostWork& work = all.first();
    const QString name = QString::fromStdString(work.site.name);
    const auto recover = [this, work] {
        if (!mayLeave()) return;
        document_.recover(work.site, work.origin);
        if (recovery_.copyNow()) Recovery::discard(work);
        offerLostWork();
    };
    const auto discard = [this, work] {
        Recovery::discard(work);
        offerLostWork();
    };
    message_->show(MessageBar::Kind::notice, QStringLiteral("recovery"),
                   tr("Work on “%1” of %2 was not saved when the program ended.")
                       .arg(name.isEmpty() ? tr("Unnamed site") : name,
                            QLocale().toString(work.when, QLocale::ShortFormat)),
                   {{tr("&Recover it"), recover}, {tr("&Discard it"), discard}});
}

void MainWindow::importListing(const QString& path) {
    auto preview = preview_listing_of(path.toStdString(), preview_rows);
    if (preview && preview->columns() == 0)
        preview = tl::unexpected(BadInput{path.toStdString(), {{"", tr("The file is empty.").toStdString()}}, false});
    if (!preview) {
        message_->show(MessageBar::Kind::fault, about_listing,
                       tr("%1 cannot be used. %2").arg(QFileInfo(path).fileName(), describe(preview.error())));
        return;
    }
    message_->clear(about_listing);
    const QString folder = document_.folder();
    const QString file = folder.isEmpty() ? QFileInfo(path).absoluteFilePath() : QDir(folder).relativeFilePath(path);
    auto* dialog = new ImportDialog(path, file, *std::move(preview), document_.isOpen() ? document_.site() : emptySite(), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog, path] {
        const ListingPlan plan = dialog->plan();
        if (!document_.isOpen()) document_.start(emptySite());
        ItemRef added;
        document_.editSite(tr("import of %1").arg(QFileInfo(path).fileName()),
                           [&](Site& site) { added = ui::importListing(site, plan); });
        outline_->choose(added);
    });
    dialog->open();
}

bool MainWindow::save() {
    if (!document_.isOpen()) return false;
    form_->commitPending();
    if (document_.path().isEmpty()) return saveAs();
    if (document_.changedOnDisk()) {
        message_->show(MessageBar::Kind::fault, about_file,
                       tr("%1 was changed by another program since it was read. Nothing was saved.")
                           .arg(QFileInfo(document_.path()).fileName()),
                       {{tr("&Overwrite it"), [this] { writeTo(document_.path()); }},
                        {tr("Save &as…"), [this] { saveAs(); }}});
        return false;
    }
    return writeTo(document_.path());
}

bool MainWindow::saveAs() {
    if (!document_.isOpen()) return false;
    form_->commitPending();
    QString start_at = document_.path();
    if (start_at.isEmpty()) {
        QString name = QString::fromStdString(document_.site().name);
        name.replace(QLatin1Char('/'), QLatin1Char('-'));
        start_at = QDir::home().filePath(name + site_suffix);
    }
    QString path = QFileDialog::getSaveFileName(this, tr("Save the site"), start_at,
                                                tr("Sites (*%1);;All files (*)").arg(site_suffix));
    if (path.isEmpty()) return false;
    if (!QFileInfo(path).fileName().contains(QLatin1Char('.'))) path += site_suffix;
    return writeTo(path);
}

bool MainWindow::writeTo(const QString& path) {
    const auto saved = document_.saveAs(path);
    if (!saved) {
        message_->show(MessageBar::Kind::fault, about_file, saved.error(),
                       {{tr("Save &as…"), [this] { saveAs(); }}});
        return false;
    }
    message_->clear(about_file);
    recent_.add(path);
    return true;
}

void MainWindow::fileChangedOutside() {
    const QString file = QFileInfo(document_.path()).fileName();
    message_->show(MessageBar::Kind::notice, about_file,
                   document_.isModified()
                       ? tr("%1 was changed by another program. The changes made here are not saved yet.").arg(file)
                       : tr("%1 was changed by another program.").arg(file),
                   {{tr("&Read it again"), [this] { openFile(document_.path()); }},
                    {tr("&Keep what is here"), [this] { document_.keepMine(); }}});
}

void MainWindow::fileOpenElsewhere() {
    message_->show(MessageBar::Kind::notice, about_file,
                   tr("%1 is open in another window of Ullage. What is saved there is not seen here until it is read "
                      "again.")
                       .arg(QFileInfo(document_.path()).fileName()));
}

void MainWindow::sayReadOnly() {
    if (!document_.isReadOnly()) return;
    message_->show(MessageBar::Kind::notice, about_file,
                   tr("%1 is read-only: changes can be tried, and saved to another file.")
                       .arg(QFileInfo(document_.path()).fileName()),
                   {{tr("Save &as…"), [this] { saveAs(); }}});
}

void MainWindow::fillRecentMenu() {
    recent_menu_->clear();
    for (const QString& path : recent_.all()) {
        QString text = QDir::toNativeSeparators(path);
        QAction* action =
            recent_menu_->addAction(text.replace(QLatin1Char('&'), QLatin1String("&&")));
        action->setEnabled(QFileInfo::exists(path));
        connect(action, &QAction::triggered, this, [this, path] { openFile(path); });
    }
    if (recent_menu_->isEmpty()) {
        recent_menu_->addAction(tr("None"))->setEnabled(false);
        return;
    }
    recent_menu_->addSeparator();
    connect(recent_menu_->addAction(tr("&Clear")), &QAction::triggered, this,
            [this] { recent_.clear(); });
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (!mayLeave()) {
        event->ignore();
        return;
    }
    keepLayout();
    event->accept();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    if (!firstLocalFile(event->mimeData()).isEmpty()) event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QString path = firstLocalFile(event->mimeData());
    if (path.isEmpty()) return;
    event->acceptProposedAction();
    if (path.endsWith(QLatin1String(".json"), Qt::CaseInsensitive))
        openFile(path);
    else
        importListing(path);
}

// The site and its answer ----------------------------------------------------------------------

void MainWindow::showStart() {
    start_->setRecent(recent_.all());
    const QString folder = samplesFolder();
    QStringList samples;
    if (!folder.isEmpty())
        for (const QFileInfo& info :
             QDir(folder).entryInfoList({QLatin1Char('*') + site_suffix}, QDir::Files, QDir::Name))
            samples << info.filePath();
    start_->setSamples(samples);
    stack_->setCurrentWidget(start_);
}

void MainWindow::siteReplaced() {
    replaced_ = true;
    answer_.reset();
    run_problems_.clear();
    message_->clearAll();
    kept_.clear();
    comparison_->setPresent({});
    findings_->setAnswer(nullptr);
    pages_->setAnswer(nullptr, document_.folder());
    const bool open = document_.isOpen();
    for (QAction* action : {save_, save_as_, reload_}) action->setEnabled(open);
    if (!open) {
        showStart();
        return;
    }
    stack_->setCurrentWidget(panes_);
    outline_->choose({});
    form_->showItem({});
    form_->refresh();
    outline_->view()->setFocus();
}

void MainWindow::siteChanged() {
    showTitle();
    form_->refresh();
    run_problems_.clear();
    showProblems();
    if (!document_.isOpen() || !document_.problems().empty())
        runner_.reset();
    else
        ask(replaced_ ? AnswerRunner::Pace::now : AnswerRunner::Pace::soon);
    replaced_ = false;
    showState();
}

void MainWindow::ask(AnswerRunner::Pace pace) {
    runner_.request({document_.siteValue(), document_.evidence(), settings_}, pace);
}

void MainWindow::showProblems() {
    Problems all = document_.problems();
    all.insert(all.end(), run_problems_.begin(), run_problems_.end());
    form_->setProblems(all);
    outline_model_->setProblems(all);
    const Problems& standing = document_.problems();
    if (standing.empty()) {
        message_->clear(about_problems);
        return;
    }
    QString text = tr("The forecast waits for this to be mended: %1")
                       .arg(QString::fromStdString(standing.front().what));
    const auto more = static_cast<int>(standing.size()) - 1;
    if (more > 0)
        text += QLatin1Char(' ') + Words::plural(tr("(and %n more)", nullptr, more), more);
    const QString where = QString::fromStdString(standing.front().where);
    message_->show(MessageBar::Kind::fault, about_problems, text,
                   {{tr("&Show it"), [this, where] { showPointer(where); }}});
}

void MainWindow::present(const std::shared_ptr<const Answer>& got) {
    const bool said_so = got != answer_ && prefixes_ == Prefixes::decimal &&
                         got->language == Words::language();
    answer_ = said_so ? got
                      : std::make_shared<const Answer>(
                            in_language(*got, Words::language(), prefixes_));
    outline_model_->setAnswer(answer_);
    comparison_->setPresent({answer_});
    findings_->setAnswer(answer_);
    pages_->setAnswer(answer_, document_.folder());
    showState();
}

void MainWindow::showFailure(const Problems& problems) {
    run_problems_ = problems;
    showProblems();
    const QString where =
        problems.empty() ? QString() : QString::fromStdString(problems.front().where);
    QList<MessageBar::Action> actions;
    if (!where.isEmpty()) actions.append({tr("&Show it"), [this, where] { showPointer(where); }});
    actions.append({tr("&Try again"), [this] { runner_.retry(); }});
    message_->show(MessageBar::Kind::fault, about_run,
                   tr("There is no forecast. %1").arg(describe({{}, problems})), actions);
}

void MainWindow::showState() {
    const AnswerRunner::State state = runner_.state();
    const bool updating = state == AnswerRunner::State::updating;
    cancel_->setEnabled(updating);
    // Only what is answered in full is worth holding later states against.
    keep_->setEnabled(state == AnswerRunner::State::idle && answer_ &&
                      document_.problems().empty());
    if (updating) {
        message_->clear(about_run);
        if (!show_progress_.isActive() && !progress_->isVisible()) show_progress_.start();
    } else {
        show_progress_.stop();
        progress_->hide();
        cancel_button_->hide();
    }
    const bool first_look = updating && answer_ && answer_->site == document_.site();
    // What is answered at once is not drawn paler in between.
    if (!updating || first_look)
        grow_pale_.stop();
    else if (!pale_ && !grow_pale_.isActive())
        grow_pale_.start();
    pale_ = pale_ && updating && !first_look;
    QString text;
    switch (state) {
        case AnswerRunner::State::updating:
            text = first_look
                       ? tr("First look, from %1 futures; more are under way…")
                             .arg(QLocale().toString(answer_->outlook.paths))
                       : tr("Updating…");
            break;
        case AnswerRunner::State::cancelled:
            text = tr("Out of date: cancelled");
            message_->show(MessageBar::Kind::notice, about_run,
                           tr("The forecast was cancelled; what is shown is of an earlier state."),
                           {{tr("&Recalculate"), [this] { runner_.retry(); }}});
            break;
        case AnswerRunner::State::failed:
            text = tr("Out of date: no forecast");
            break;
        case AnswerRunner::State::idle:
            if (document_.isOpen() && !document_.problems().empty())
                text = tr("Waiting for something to be mended");
            else if (document_.isOpen() && answer_)
                text = tr("Up to date, from %1 futures")
                           .arg(QLocale().toString(answer_->outlook.paths));
            break;
    }
    state_label_->setText(text);
    units_label_->setVisible(document_.isOpen());
    const bool to_mend = !document_.problems().empty();
    ShownState shown = answer_ ? ShownState::ready : ShownState::nothing;
    if (updating && (pale_ || !answer_))
        shown = ShownState::updating;
    else if (state == AnswerRunner::State::cancelled)
        shown = ShownState::cancelled;
    else if (state == AnswerRunner::State::failed || to_mend)
        shown = ShownState::failed;
    findings_->setOutOfDate(out_of_date(shown));
    pages_->setState(shown, updating ? ShownState::updating : shown);
}

void MainWindow::showTitle() {
    if (!document_.isOpen()) {
        setWindowTitle(tr("Ullage"));
        return;
    }
    QString name = QString::fromStdString(document_.site().name);
    if (name.isEmpty())
        name = document_.path().isEmpty() ? tr("Unnamed site")
                                          : QFileInfo(document_.path()).fileName();
    setWindowTitle(tr("%1[*] — Ullage").arg(name));
    setWindowFilePath(document_.path());
    setWindowModified(document_.isModified());
}

void MainWindow::keepForComparison() {
    if (answer_) kept_.keep({kept_.freshName(), document_.siteValue(), answer_});
}

void MainWindow::compare() {
    const KeptOutlook* kept = kept_.chosen();
    pages_->setKept(kept ? std::optional(*kept) : std::nullopt);
}

void MainWindow::revertToKept() {
    const KeptOutlook* kept = kept_.chosen();
    if (!kept) return;
    form_->commitPending();
    document_.editSite(tr("going back to “%1”").arg(kept->name),
                       [site = kept->site](Site& now) { now = *site; });
}

void MainWindow::planEvent(const QString& box, Day day) {
    const auto item = itemAt(box);
    if (!item || item->kind != ItemKind::box || !exists(document_.site(), *item)) return;
    const Site& site = document_.site();
    const std::vector<int> datasets =
        datasetsOn(site, site.boxes[static_cast<std::size_t>(item->index)].name);
    if (datasets.empty()) return;
    QStringList names;
    for (const int index : datasets) names << nameOf(site, {ItemKind::dataset, index});
    const int which = datasets.size() == 1 ? 0 : ask_which_(names);
    if (which < 0) return;
    const int dataset = datasets[static_cast<std::size_t>(which)];
    std::string pointer;
    document_.editSite(tr("%1: planned event").arg(names[which]),
                       [&](Site& now) { pointer = addPlannedEvent(now, dataset, day); });
    showPointer(QString::fromStdString(pointer));
}

void MainWindow::chooseItem(ItemRef item) {
    form_->showItem(item);
    pages_->showItem(pointerOf(item));
}

void MainWindow::showPointer(const QString& pointer) {
    const auto item = itemAt(pointer);
    if (!item || !exists(document_.site(), *item)) return;
    outline_->choose(*item);
    if (pointer != pointerOf(*item)) form_->focusField(pointer);
}

}  // namespace ullage::ui
