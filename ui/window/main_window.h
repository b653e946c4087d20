// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The window: outline at the left, the questions in the middle, the chosen item's form at the
/// right, findings along the bottom, messages along the top.
///
/// It joins the parts and computes nothing: an edit makes a new site, the runner answers it in the
/// background, the answer goes to pages, findings and outline. While an answer is under way the
/// last one stays, paler.

#include "core/findings/findings.h"
#include "core/units/quantity_text.h"
#include "ui/compare/kept_list.h"
#include "ui/document/item_ref.h"
#include "ui/document/open_file.h"
#include "ui/document/recovery.h"
#include "ui/document/site_document.h"
#include "ui/run/answer_runner.h"
#include "ui/run/outage_runner.h"
#include "ui/window/look.h"
#include "ui/window/recent_files.h"

#include <QMainWindow>
#include <QTimer>

#include <memory>

class QActionGroup;
class QLabel;
class QProgressBar;
class QPushButton;
class QSplitter;
class QStackedWidget;

namespace ullage {
class ComparisonBar;
}  // namespace ullage

namespace ullage::ui {

class FindingsList;
class FormPanel;
class GuideWindow;
class MessageBar;
class OutlineModel;
class OutlinePane;
class QuestionPages;
class StartPage;

class MainWindow : public QMainWindow {
    Q_OBJECT

public:
    /// How to go on with unsaved work.
    enum class Leave { save, discard, stay };

    explicit MainWindow(const Settings& settings, AnswerRunner::Compute compute = answer,
                        OutageRunner::Drill drill = outage_drill, QWidget* parent = nullptr);
    ~MainWindow() override;

    SiteDocument& document() { return document_; }
    AnswerRunner& runner() { return runner_; }
    std::shared_ptr<const Answer> shownAnswer() const { return answer_; }
    MessageBar& messageBar() { return *message_; }
    const KeptList& kept() const { return kept_; }
    /// Replaces the menu in which one of several datasets is chosen: its index in the list, or −1.
    void setAskWhich(std::function<int(const QStringList&)> ask) { ask_which_ = std::move(ask); }
    /// Replaces the question about unsaved work.
    void setAskToLeave(std::function<Leave()> ask) { ask_to_leave_ = std::move(ask); }

    /// Opens a file, after asking about unsaved work. What is wrong with it is said in the window.
    void openFile(const QString& path);
    void openSample(const QString& path);
    /// Offers what another run of the program did not get to save, if there is any.
    void offerLostWork();
    /// Shows a listing and asks what of it the site is to take in.
    void importListing(const QString& path);
    /// Returns true if the site was saved.
    bool save();
    bool saveAs();
    /// Chooses an item, and its field if the pointer leads to one.
    void showPointer(const QString& pointer);
    void setPrefixes(Prefixes prefixes);
    void setTheme(ThemeChoice choice);
    void resetLayout();

protected:
    void closeEvent(QCloseEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void makeWorkspace();
    void makeQuestions(QWidget* room);
    void makeStatusBar();
    void makeMenus();
    void makeFileMenu();
    void makeEditMenu();
    void makeViewMenu();
    void makeLanguageMenu(QMenu* view);
    void makeHelpMenu();
    void connectParts();
    void restoreLayout();
    static ThemeChoice chosenTheme();
    void showPrefixes(Prefixes prefixes);
    void showTheme(ThemeChoice choice);
    void keepLayout();

    void newSite();
    void chooseFile();
    void chooseListing();
    void fillRecentMenu();
    bool mayLeave();
    bool writeTo(const QString& path);
    void fileChangedOutside();
    void fileOpenElsewhere();
    void sayReadOnly();
    void showStart();

    void siteReplaced();
    void siteChanged();
    void showProblems();
    void ask(AnswerRunner::Pace pace);
    void present(const std::shared_ptr<const Answer>& answer);
    void showState();
    void showFailure(const Problems& problems);
    void showTitle();
    void keepForComparison();
    void compare();
    void planEvent(const QString& box, Day day);
    void revertToKept();
    void chooseItem(ItemRef item);
    void nextPane();
    void showGuide();
    void explainFocused();

    Settings settings_;
    SiteDocument document_;
    AnswerRunner runner_;
    OutageRunner drills_;
    Recovery recovery_;
    OpenFile open_file_;
    RecentFiles recent_;
    Prefixes prefixes_ = Prefixes::decimal;
    std::shared_ptr<const Answer> answer_;
    KeptList kept_;
    Problems run_problems_;
    bool replaced_ = false;  ///< the next change of the site is another site
    std::function<Leave()> ask_to_leave_;
    std::function<int(const QStringList&)> ask_which_;

    OutlineModel* outline_model_;
    MessageBar* message_;
    QStackedWidget* stack_;
    StartPage* start_;
    QSplitter *panes_, *middle_;
    OutlinePane* outline_;
    ComparisonBar* comparison_;
    QuestionPages* pages_;
    FindingsList* findings_;
    FormPanel* form_;
    GuideWindow* guide_ = nullptr;
    QLabel *state_label_, *units_label_;
    QProgressBar* progress_;
    QPushButton* cancel_button_;
    QTimer show_progress_, grow_pale_;
    bool pale_ = false;  ///< the answer shown is not of the present site, and has not been for a while
    QMenu* recent_menu_;
    QAction *save_, *save_as_, *cancel_, *reload_, *keep_;
    QActionGroup *units_, *themes_;
};

}  // namespace ullage::ui
