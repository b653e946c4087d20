// SPDX-License-Identifier: GPL-3.0-or-later
/// The window in German: its catalogue is whole, and nothing on screen is left in English.
#include "tests/ui/access/listing_shown.h"
#include "tests/ui/window/small.h"
#include "ui/language/spoken_language.h"
#include "ui/theme/words.h"
#include "ui/window/about_dialog.h"
#include "ui/window/main_window.h"
#include "ui/window/window_settings.h"

#include <QAbstractButton>
#include <QAction>
#include <QCheckBox>
#include <QFile>
#include <QGroupBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QProcess>
#include <QRegularExpression>
#include <QTabBar>
#include <QTemporaryDir>
#include <QXmlStreamReader>

#include <gtest/gtest.h>

#include <set>

namespace ullage::ui {
namespace {

const QString folder = QStringLiteral(ULLAGE_SOURCE_DIR "/resources/translations");

struct Text {
    QString context, source;
    QStringList translations;
    bool finished = true, numerus = false;
};

std::vector<Text> texts_of(const QString& path) {
    QFile file(path);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << path.toStdString();
    QXmlStreamReader xml(&file);
    std::vector<Text> all;
    QString context;
    while (!xml.atEnd()) {
        if (xml.readNext() != QXmlStreamReader::StartElement) continue;
        const auto name = xml.name();
        if (name == QLatin1String("name")) context = xml.readElementText();
        if (name == QLatin1String("message")) {
            all.push_back({context, {}, {}, true, false});
            all.back().numerus = xml.attributes().value(QLatin1String("numerus")) == QLatin1String("yes");
        }
        if (name == QLatin1String("source")) all.back().source = xml.readElementText();
        if (name == QLatin1String("numerusform")) all.back().translations << xml.readElementText();
        if (name == QLatin1String("translation")) {
            all.back().finished = !xml.attributes().hasAttribute(QLatin1String("type"));
            if (!all.back().numerus) all.back().translations << xml.readElementText();
        }
    }
    EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString();
    return all;
}

/// %1, %n … of a text, each once.
std::set<QString> blanks_of(const QString& text) {
    static const QRegularExpression blank(QStringLiteral("%L?(?:[0-9]+|n)"));
    std::set<QString> blanks;
    for (auto at = blank.globalMatch(text); at.hasNext();) blanks.insert(at.next().captured(0));
    return blanks;
}

class WindowCatalogue : public ::testing::Test {
protected:
    /// What the sources say now, gathered as resources/translations/update.sh does.
    static void SetUpTestSuite() {
        QTemporaryDir made;
        const QString now = made.filePath(QStringLiteral("now.ts"));
        ASSERT_EQ(QProcess::execute(folder + QStringLiteral("/update.sh"),
                                    {made.filePath(QStringLiteral("core.pot")), now}),
                  0)
            << "are gettext and qt6-l10n-tools installed?";
        texts = texts_of(now);
        kept = texts_of(folder + QStringLiteral("/ullage_de.ts"));
    }
    static inline std::vector<Text> texts, kept;
};

TEST_F(WindowCatalogue, HoldsEveryTextOfTheWindowAndNothingElse) {
    EXPECT_GT(texts.size(), 1000U) << "too few were found to mean anything";
    for (const Text& t : texts) {
        EXPECT_TRUE(t.finished) << t.context.toStdString() << ": " << t.source.toStdString();
        EXPECT_EQ(t.translations.size(), t.numerus ? 2 : 1) << t.source.toStdString();
        for (const QString& german : t.translations)
            EXPECT_FALSE(german.isEmpty()) << t.context.toStdString() << ": " << t.source.toStdString();
    }
    EXPECT_EQ(kept.size(), texts.size()) << "run resources/translations/update.sh";
}

TEST_F(WindowCatalogue, TranslationsHaveTheBlanksOfTheirTexts) {
    for (const Text& t : texts)
        for (const QString& german : t.translations)
            EXPECT_EQ(blanks_of(german), blanks_of(t.source)) << t.source.toStdString();
}

TEST_F(WindowCatalogue, TextsWithALetterToPressKeepOne) {
    static const QRegularExpression letter(
        QStringLiteral("&\\w"), QRegularExpression::UseUnicodePropertiesOption);
    for (const Text& t : texts)
        for (const QString& german : t.translations)
            EXPECT_EQ(german.contains(letter), t.source.contains(letter))
                << t.context.toStdString() << ": " << t.source.toStdString();
}

AnswerRunner::Result plain(const Site& site, const Evidence&, const Settings& settings,
                           const Progress&) {
    return plainAnswer(site, settings.paths);
}

/// Everything that the window's widgets say, without the letters to press.
std::set<QString> shown_by(const QWidget& window) {
    std::set<QString> all;
    const auto add = [&all](QString text) { all.insert(text.remove(u'&')); };
    for (const auto* w : window.findChildren<QWidget*>()) {
        add(w->toolTip());
        add(w->accessibleName());
        if (const auto* label = qobject_cast<const QLabel*>(w)) add(label->text());
        if (const auto* button = qobject_cast<const QAbstractButton*>(w)) add(button->text());
        if (const auto* box = qobject_cast<const QGroupBox*>(w)) add(box->title());
        if (const auto* line = qobject_cast<const QLineEdit*>(w)) add(line->placeholderText());
        if (const auto* menu = qobject_cast<const QMenu*>(w)) add(menu->title());
        if (const auto* tabs = qobject_cast<const QTabBar*>(w))
            for (int i = 0; i < tabs->count(); ++i) add(tabs->tabText(i));
    }
    for (const auto* action : window.findChildren<QAction*>()) add(action->text());
    return all;
}

/// Speaks German for a test, and leaves no trace.
class GermanWindow : public WindowCatalogue {
protected:
    void SetUp() override {
        windowSettings().clear();
        qputenv("ULLAGE_SAMPLES", ULLAGE_SOURCE_DIR "/sample-sites");
        speak(Language::german);
    }
    void TearDown() override {
        speak(Language::english);
        QLocale::setDefault(QLocale(QLocale::English, QLocale::UnitedKingdom));
    }

    void expectNoEnglish(const QWidget& window) const {
        std::set<QString> english, german;
        for (const Text& t : texts) {
            QString source = t.source;
            english.insert(source.remove(u'&'));
            for (QString text : t.translations) german.insert(text.remove(u'&'));
        }
        int seen = 0;
        for (const QString& text : shown_by(window)) {
            if (german.count(text) == 1) ++seen;
            EXPECT_FALSE(english.count(text) == 1 && german.count(text) == 0) << text.toStdString();
        }
        EXPECT_GT(seen, 5) << "too little is on screen to mean anything";
    }
};

TEST_F(GermanWindow, HasNoEnglishTextLeftAtTheStart) {
    MainWindow window(Settings(), plain);
    window.show();
    expectNoEnglish(window);
}

TEST_F(GermanWindow, HasNoEnglishTextLeftOnASite) {
    MainWindow window(Settings(), plain);
    window.show();
    window.openFile(QStringLiteral(ULLAGE_SOURCE_DIR "/sample-sites/saltmarsh-seeds.site.json"));
    expectNoEnglish(window);
    EXPECT_EQ(Words::language(), Language::german);
}

TEST_F(GermanWindow, HasNoEnglishTextLeftInTheImportOfAListing) {
    ListingShown listing(smallSite());
    expectNoEnglish(*listing.dialog);
    listing.dialog->findChild<QCheckBox*>(QStringLiteral("import.leaveOut"))->click();
    EXPECT_TRUE(listing.dialog->said().contains(QStringLiteral("2 Zeilen"))) << listing.dialog->said().toStdString();
}

TEST_F(GermanWindow, SaysItsNumbersAndSpansInGerman) {
    EXPECT_EQ(Words::span(427).toStdString(), "etwa 14 Monate");
    EXPECT_EQ(Words::horizon(365.25).toStdString(), "1 Jahr");
    EXPECT_EQ(Words::bytes(9.2e12, Prefixes::decimal).toStdString(), "9,2\u00a0TB");
    EXPECT_EQ(Words::futures(0.9).toStdString(), "9 von 10 Verläufen");
    EXPECT_EQ(Words::said(message("growth of “{}”", "scans")).toStdString(), "Wachstum von „scans“");
}

TEST(Speaking, EndsWithWhatWasSpokenBefore) {
    const QLocale before;
    {
        const Speaking german(Language::german);
        EXPECT_EQ(spoken_language(), Language::german);
        EXPECT_EQ(QLocale().language(), QLocale::German);
    }
    EXPECT_EQ(spoken_language(), Language::english);
    EXPECT_EQ(QLocale(), before);
}

}  // namespace
}  // namespace ullage::ui
