// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/terms.h"
#include "tests/ui/window/small.h"
#include "ui/forms/field.h"
#include "ui/forms/form.h"
#include "ui/forms/form_panel.h"
#include "ui/help/guide_text.h"
#include "ui/help/guide_window.h"
#include "ui/help/licences.h"
#include "ui/window/about_dialog.h"
#include "ui/window/main_window.h"
#include "ui/window/window_settings.h"

#include <QAction>
#include <QLabel>
#include <QListWidget>
#include <QTabWidget>
#include <QTextBrowser>

#include <gtest/gtest.h>

#include <set>

namespace ullage::ui {
namespace {

AnswerRunner::Result plain(const Site& site, const Evidence&, const Settings& settings,
                           const Progress&) {
    return plainAnswer(site, settings.paths);
}

TEST(Guide, EveryPageHasASectionAndNoSectionIsEmptyOrThereTwice) {
    std::set<QString> ids;
    for (const GuideSection& section : guideSections()) {
        EXPECT_TRUE(ids.insert(section.id).second) << section.id.toStdString();
        EXPECT_FALSE(section.title.isEmpty());
        EXPECT_FALSE(section.paragraphs.isEmpty()) << section.id.toStdString();
    }
    MainWindow window{Settings{}, plain};
    const auto* pages = window.findChild<QTabWidget*>(QStringLiteral("pages"));
    for (int page = 0; page < pages->count(); ++page) {
        const QString id = guideSectionOfPage(page);
        EXPECT_EQ(ids.count(id), 1u);
        for (const GuideSection& section : guideSections())
            EXPECT_EQ(section.id == id, section.title == pages->tabText(page)) << page;
    }
}

TEST(Guide, F1OpensItAtThePageInFront) {
    windowSettings().clear();
    MainWindow window{Settings{}, plain};
    window.document().start(smallSite());
    window.show();
    window.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    window.findChild<QTabWidget*>(QStringLiteral("pages"))->setCurrentIndex(2);
    QTest::keyClick(&window, Qt::Key_F1);
    const auto* guide = window.findChild<GuideWindow*>();
    ASSERT_NE(guide, nullptr);
    EXPECT_TRUE(guide->isVisible());
    EXPECT_EQ(guide->section(), QStringLiteral("buy"));
}

TEST(Guide, ExplainsEveryTermThatTheReportDoes) {
    GuideWindow guide;
    guide.showSection(QStringLiteral("words"));
    const QString shown = guide.findChild<QTextBrowser*>()->toPlainText();
    for (const Term& term : terms(Wording()))
        EXPECT_TRUE(shown.contains(QString::fromStdString(term.meaning))) << term.meaning;
}

TEST(Guide, AFieldWithAHintSaysWhatItIsFor) {
    SiteDocument document;
    document.start(smallSite());
    FormPanel panel(document);
    int with_hint = 0;
    for (const ItemKind kind : listed_kinds) {
        panel.showItem({kind, 0});
        for (const Field* field : panel.form()->findChildren<Field*>()) {
            if (field->toolTip().isEmpty()) continue;
            ++with_hint;
            EXPECT_TRUE(field->whatsThis().startsWith(field->label()));
            EXPECT_TRUE(field->whatsThis().endsWith(field->toolTip()));
        }
    }
    EXPECT_GT(with_hint, 20);
}

TEST(About, NamesTheLicenceOfAllThatTheProgramIsBuiltUpon) {
    AboutDialog about;
    QStringList shown;
    for (const QLabel* label : about.findChildren<QLabel*>()) shown << label->text();
    for (const char* name : {"Qt", "Qt Charts", "Eigen", "oneTBB", "JSON for Modern C++", "fmt",
                             "cctz", "Random123", "tl::expected"})
        EXPECT_TRUE(shown.contains(QLatin1String(name))) << name;
    for (const UsedWork& work : usedWorks())
        EXPECT_TRUE(shown.contains(work.licence)) << work.name.toStdString();
    for (const QString& caution : cautions())
        EXPECT_FALSE(shown.filter(caution).isEmpty()) << caution.toStdString();
}

}  // namespace
}  // namespace ullage::ui
