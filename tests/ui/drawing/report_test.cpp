// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <QBuffer>
#include <QComboBox>
#include <QFile>
#include <QLocale>
#include <QPainter>
#include <QProcess>
#include <QPushButton>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QXmlStreamReader>

#include "../sample_answer.h"
#include "core/findings/words.h"
#include "core/measure/evidence.h"
#include "core/site/site_json.h"
#include "ui/language/spoken_language.h"
#include "ui/pages/report_page.h"
#include "ui/report/pdf_outline.h"
#include "ui/report/report_pictures.h"
#include "ui/report/report_preview.h"
#include "ui/report/write_report.h"

namespace ullage {
namespace {

struct Case {
    const char* name;
    Answer answer;
};

/// What a client's site may be like.
std::vector<Case> cases() {
    std::vector<Case> all;
    all.push_back({"usual", sample::sure()});
    all.push_back({"offers", sample::buying(6)});
    all.push_back({"many boxes with long names", sample::many(7)});
    all.push_back({"nothing", sample::empty()});
    Answer wild = sample::sure();
    const std::string one_word(200, 'W');
    wild.outlook.site = wild.site.name = one_word;
    wild.site.prepared_for = one_word;
    wild.outlook.boxes[0].name = one_word;
    wild.outlook.sends[0].name = one_word;
    wild.outlook.datasets[0].name = "<script>alert(1)</script> & \"so\" on";
    wild.site.datasets[0].name = wild.outlook.datasets[0].name;
    for (int i = 0; i < 1000; ++i) {
        Event e;
        e.on = wild.outlook.as_of + std::chrono::days(i);
        e.amount = Entered<Amount>(Amount{1e9, Amount::Of::bytes}, "1 GB");
        wild.site.datasets[0].events.push_back(e);
    }
    for (int i = 0; i < 60; ++i) {
        wild.outlook.datasets.push_back(sample::assumed_dataset("dataset " + std::to_string(i)));
        wild.site.datasets.push_back(wild.site.datasets[1]);
        wild.site.datasets.back().name = "dataset " + std::to_string(i);
    }
    wild.findings = findings(wild.site, wild.outlook);
    all.push_back({"names of one long word, a cell longer than a page, 62 datasets", wild});
    return all;
}

constexpr Language languages[] = {Language::english, Language::german};

ReportPages pages_of(const Answer& a, Paper paper = Paper::a4, const QImage& logo = {}) {
    return {sample::shared(a), report_of(a), paper, logo};
}

QImage logo() {
    QImage picture(300, 100, QImage::Format_RGB32);
    picture.fill(Qt::darkGreen);
    return picture;
}

TEST(ReportPages, NothingIsOutsideTheMarginsOrOverAnything) {
    for (const Case& c : cases())
        for (const auto& [paper, language] : {std::pair{Paper::a4, Language::german},
                                             std::pair{Paper::letter, Language::english}}) {
            const ReportPages pages = pages_of(in_language(c.answer, language), paper, logo());
            const QRectF room = pages.content().adjusted(-0.5, -0.5, 0.5, 0.5);
            for (std::size_t i = 0; i < pages.placed().size(); ++i) {
                const auto& one = pages.placed()[i];
                ASSERT_TRUE(room.contains(one.place)) << c.name << ": " << one.text.toStdString();
                for (std::size_t j = i + 1; j < pages.placed().size(); ++j) {
                    const auto& two = pages.placed()[j];
                    if (two.page != one.page) break;
                    const QRectF both = one.place.intersected(two.place);
                    ASSERT_FALSE(both.width() > 1 && both.height() > 2)
                        << c.name << ", page " << one.page << ": " << one.text.toStdString()
                        << " / " << two.text.toStdString();
                }
            }
        }
}

TEST(ReportPages, NoPageIsEmptyAndNoneIsMissing) {
    for (const Case& c : cases()) {
        const ReportPages pages = pages_of(c.answer);
        std::vector<int> things(static_cast<std::size_t>(pages.count()), 0);
        for (const auto& thing : pages.placed()) ++things.at(static_cast<std::size_t>(thing.page));
        for (const int n : things) EXPECT_GT(n, 0) << c.name;
    }
}

TEST(ReportPages, AHeadingIsNeverTheLastOfItsPage) {
    for (const Case& c : cases()) {
        const ReportPages pages = pages_of(c.answer);
        for (const auto& section : pages.report().sections) {
            const QString heading = QString::fromStdString(section.heading);
            for (std::size_t i = 0; i + 1 < pages.placed().size(); ++i) {
                if (heading.isEmpty() || pages.placed()[i].text != heading) continue;
                EXPECT_EQ(pages.placed()[i].page, pages.placed()[i + 1].page) << section.heading;
            }
        }
    }
}

TEST(ReportPages, ATableThatGoesOnHasItsHeaderAgain) {
    const ReportPages pages = pages_of(cases().back().answer);
    const QString header = QStringLiteral("Change in a day");
    std::vector<int> with_header, with_rows;
    for (const auto& thing : pages.placed()) {
        if (thing.text == header) with_header.push_back(thing.page);
        if (thing.text.contains(QStringLiteral("1 (assumed)")) &&
            (with_rows.empty() || with_rows.back() != thing.page))
            with_rows.push_back(thing.page);
    }
    EXPECT_GT(with_rows.size(), 1U) << "the table is too short for this test";
    EXPECT_EQ(with_header, with_rows);
}

TEST(ReportPages, EveryTextOfTheContentIsPlaced) {
    const Answer a = sample::buying(6);
    const ReportPages pages = pages_of(a);
    QString all;
    for (const auto& thing : pages.placed()) all += thing.text;
    all.remove(u' ');
    for (const Finding& f : a.findings)
        EXPECT_TRUE(all.contains(QString::fromStdString(f.text).remove(u' '))) << f.text;
    for (const auto& sentence : pages.report().answer)
        EXPECT_TRUE(all.contains(QString::fromStdString(sentence).remove(u' '))) << sentence;
}

TEST(ReportPages, ThePdfIsTheSameTwiceButForItsDates) {
    const ReportPages pages = pages_of(sample::sure());
    const auto undated = [](QByteArray pdf) {
        for (qsizetype at = pdf.indexOf("(D:"); at >= 0; at = pdf.indexOf("(D:", at + 1))
            pdf.replace(at, pdf.indexOf(')', at) - at, "(D:");
        return pdf;
    };
    const QByteArray once = undated(pages.pdf());
    ASSERT_TRUE(once.startsWith("%PDF-"));
    EXPECT_EQ(once, undated(pages_of(sample::sure()).pdf()));
}

/// What pdftotext reads, in one line; empty: it is not installed.
QString text_of_pdf(const QByteArray& pdf) {
    const QString program = QStandardPaths::findExecutable(QStringLiteral("pdftotext"));
    if (program.isEmpty()) return {};
    QProcess process;
    process.start(program, {QStringLiteral("-raw"), QStringLiteral("-"), QStringLiteral("-")});
    process.write(pdf);
    process.closeWriteChannel();
    process.waitForFinished();
    return QString::fromUtf8(process.readAllStandardOutput()).simplified();
}

std::vector<Case> in_both_languages() {
    std::vector<Case> all;
    for (const Case& c : cases())
        for (const Language language : languages)
            all.push_back({c.name, in_language(c.answer, language)});
    return all;
}

/// The page on which a text begins, from 0; −1: nowhere.
int page_of(const ReportPages& pages, const QString& text) {
    for (const auto& thing : pages.placed())
        if (thing.text == text) return thing.page;
    return -1;
}

Answer answer_of_sample(const std::string& name) {
    const std::string file = ULLAGE_SOURCE_DIR "/sample-sites/" + name + ".site.json";
    const auto site = read_site_file(file);
    EXPECT_TRUE(site) << file;
    const auto evidence = load_evidence(*site, folder_of(file), {});
    EXPECT_TRUE(evidence) << file;
    Settings settings;
    settings.paths = 60;
    const auto a = answer(*site, *evidence, settings);
    EXPECT_TRUE(a) << file;
    return *a;
}

TEST(ReportPages, TheBodyOfAUsualSiteIsTwoPagesInEitherLanguage) {
    for (const Language language : languages)
        for (const char* name : {"harbour-clinic", "fellside-mapmakers"}) {
            const Answer a = answer_of_sample(name);
            ASSERT_LE(a.outlook.boxes.size(), 2U);
            const ReportPages pages = pages_of(in_language(a, language));
            for (const auto& section : pages.report().sections)
                if (section.appendix) {
                    EXPECT_LE(page_of(pages, QString::fromStdString(section.heading)), 2);
                    break;
                }
        }
}

TEST(ReportPages, ThePdfHoldsItsFonts) {
    const QString program = QStandardPaths::findExecutable(QStringLiteral("pdffonts"));
    if (program.isEmpty()) GTEST_SKIP() << "pdffonts is not installed";
    QTemporaryDir folder;
    QFile file(folder.filePath(QStringLiteral("r.pdf")));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(pages_of(in_language(sample::sure(), Language::german)).pdf());
    file.close();
    QProcess process;
    process.start(program, {file.fileName()});
    ASSERT_TRUE(process.waitForFinished());
    const QStringList lines =
        QString::fromUtf8(process.readAllStandardOutput()).split(u'\n', Qt::SkipEmptyParts);
    ASSERT_GT(lines.size(), 2) << "a header, a rule, and at least one font";
    const qsizetype embedded = lines[0].indexOf(QStringLiteral("emb"));
    for (qsizetype i = 2; i < lines.size(); ++i)
        EXPECT_TRUE(lines[i].mid(embedded).startsWith(QStringLiteral("yes"))) << lines[i].toStdString();
}

TEST(ReportPages, ThePdfHoldsEveryFindingAndFigureAsText) {
    for (Case& c : in_both_languages()) {
        const Wording w(c.answer.language);
        const ReportPages pages = pages_of(c.answer);
        QString text = text_of_pdf(pages.pdf());
        if (text.isEmpty()) GTEST_SKIP() << "pdftotext is not installed";
        const QString page_of = c.answer.language == Language::german
                                    ? QStringLiteral("Seite %1 von %2")
                                    : QStringLiteral("Page %1 of %2");
        EXPECT_TRUE(text.contains(page_of.arg(1).arg(pages.count())));
        // A finding may go over the end of a page, and of a line; the foot of the page is no part
        // of it.
        for (int page = 1; page <= pages.count(); ++page) {
            const QString foot = page_of.arg(page).arg(pages.count());
            const qsizetype at = text.indexOf(foot);
            ASSERT_GE(at, 0) << c.name << ": " << foot.toStdString();
            const QString title = QString::fromStdString(pages.report().title);
            qsizetype end = at + foot.size() + 1;
            if (text.mid(end).startsWith(title))
                end += title.size();
            else if (const qsizetype dots = text.indexOf(u'…', end); dots >= 0)
                end = dots + 1;
            text.remove(at, end - at);
        }
        text.remove(u' ');
        const auto has = [&](const std::string& said) {
            EXPECT_TRUE(text.contains(QString::fromStdString(said).remove(u' ')))
                << c.name << ": " << said;
        };
        for (const Finding& f : c.answer.findings) has(f.text);
        for (const auto& sentence : pages.report().answer) has(sentence);
        for (const BoxOutlook& b : c.answer.outlook.boxes)
            for (const double bytes :
                 {b.usable_bytes, b.ceiling_bytes, b.used_now_bytes, b.fill.back().used_bytes.p90})
                has(w.bytes(bytes));
        for (const OfferOutlook& o : c.answer.outlook.offers)
            has(w.money(o.cost_total, c.answer.outlook.currency));
    }
}

TEST(ReportPages, ThePdfHasAnOutlineOfItsSectionsBoxesAndSends) {
    const ReportPages pages = pages_of(sample::buying(6));
    const QByteArray pdf = pages.pdf();
    EXPECT_TRUE(pdf.contains("/Lang (en)"));
    const QString program = QStandardPaths::findExecutable(QStringLiteral("pdftohtml"));
    if (program.isEmpty()) GTEST_SKIP() << "pdftohtml is not installed";
    QTemporaryDir folder;
    QFile file(folder.filePath(QStringLiteral("r.pdf")));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(pdf);
    file.close();
    QProcess process;
    process.start(program, {QStringLiteral("-xml"), QStringLiteral("-i"), QStringLiteral("-stdout"),
                            file.fileName()});
    ASSERT_TRUE(process.waitForFinished());
    EXPECT_FALSE(process.readAllStandardError().contains("rror"));
    QXmlStreamReader xml(process.readAllStandardOutput());
    QStringList titles, expected{QString::fromStdString(pages.report().answer_heading)};
    while (!xml.atEnd())
        if (xml.readNext() == QXmlStreamReader::StartElement &&
            xml.name() == QStringLiteral("item"))
            titles << xml.readElementText();
    for (const auto& section : pages.report().sections) {
        expected << QString::fromStdString(section.heading);
        for (const auto& part : section.parts)
            if (const auto* heading = std::get_if<ReportHeading>(&part))
                expected << QString::fromStdString(heading->text);
    }
    EXPECT_EQ(titles, expected);
    const Outlook& o = sample::buying(6).outlook;
    for (const auto& box : o.boxes) EXPECT_TRUE(titles.contains(QString::fromStdString(box.name)));
    for (const auto& send : o.sends) EXPECT_TRUE(titles.contains(QString::fromStdString(send.name)));
}

TEST(PdfOutline, WhatIsNoPdfStaysAsItIs) {
    for (const char* text :
         {"", "no pdf", "%PDF-1.4\ntrailer\n<< /Size 3 /Root 1 0 R >>\nstartxref\n999999\n%%EOF"})
        EXPECT_EQ(with_outline(text, {{QStringLiteral("One"), 0, 0}}, "en"), QByteArray(text));
    const QByteArray pdf = pages_of(sample::answer()).pdf();
    EXPECT_EQ(with_outline(pdf, {{QStringLiteral("One"), 999, 0}}, "en"), pdf) << "no such page";
    EXPECT_EQ(with_outline(pdf, {}, "en"), pdf);
}

/// The elements' names and the words of an XML text; an error ends it.
QString read_xml(const std::string& html, QStringList* elements) {
    QXmlStreamReader xml(QByteArray::fromStdString(html));
    QString words;
    while (!xml.atEnd()) {
        xml.readNext();
        if (xml.isStartElement() && elements) *elements << xml.name().toString();
        if (xml.isCharacters()) words += xml.text();
    }
    EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString() << " at line "
                                 << xml.lineNumber();
    return words;
}

TEST(ReportHtmlFile, IsCleanHtmlOfItsLanguage) {
    const QString program = QStandardPaths::findExecutable(QStringLiteral("tidy"));
    if (program.isEmpty()) GTEST_SKIP() << "tidy is not installed";
    for (const Case& c : in_both_languages()) {
        const std::string html = html_of(c.answer, report_of(c.answer), logo());
        EXPECT_NE(html.find("<html lang=\"" + code_of(c.answer.language) + "\""), std::string::npos);
        QProcess process;
        process.start(program, {QStringLiteral("-errors"), QStringLiteral("-quiet"), QStringLiteral("-utf8")});
        process.write(QByteArray::fromStdString(html));
        process.closeWriteChannel();
        ASSERT_TRUE(process.waitForFinished());
        EXPECT_EQ(process.exitCode(), 0) << c.name << "\n" << process.readAllStandardError().toStdString();
    }
}

TEST(ReportHtmlFile, IsWellFormedAndEscapedForEverySite) {
    for (const Case& c : in_both_languages()) {
        QStringList elements;
        const std::string html = html_of(c.answer, report_of(c.answer), logo());
        const QString words = read_xml(html, &elements);
        EXPECT_FALSE(elements.contains(QStringLiteral("script"))) << c.name;
        for (const Finding& f : c.answer.findings)
            EXPECT_TRUE(words.contains(QString::fromStdString(f.text))) << c.name << ": " << f.text;
        EXPECT_EQ(elements.count(QStringLiteral("svg")) > 0, !c.answer.outlook.boxes.empty())
            << c.name;
    }
}

TEST(ReportHtmlFile, IsTheSameBytesTwiceAndInAnyLocale) {
    const Answer a = sample::buying(6);
    const std::string once = html_of(a, report_of(a), logo());
    EXPECT_EQ(once, html_of(a, report_of(a), logo()));
    const QLocale before;
    QLocale::setDefault(QLocale(QLocale::German, QLocale::Germany));
    EXPECT_EQ(once, html_of(a, report_of(a), logo()));
    EXPECT_EQ(QLocale().language(), QLocale::German) << "left as it was";
    QLocale::setDefault(before);
}

TEST(ReportHtmlFile, HasItsPicturesInItsOwnLanguageWhateverTheWindowSpeaks) {
    const Answer german = in_language(sample::answer(), Language::german);
    const std::string once = html_of(german, report_of(german), {});
    EXPECT_NE(once.find(">mittlere Vorhersage<"), std::string::npos);
    EXPECT_EQ(once.find(">middle forecast<"), std::string::npos);
    EXPECT_EQ(spoken_language(), Language::english) << "left as it was";
    const QLocale before;
    speak(Language::german);
    EXPECT_EQ(once, html_of(german, report_of(german), {}));
    const std::string english = html_of(sample::answer(), report_of(sample::answer()), {});
    speak(Language::english);
    QLocale::setDefault(before);
    EXPECT_EQ(english, html_of(sample::answer(), report_of(sample::answer()), {}));
    EXPECT_NE(english.find(">middle forecast<"), std::string::npos);
}

TEST(ReportPage, LanguageIsTheWindowsUntilAnotherIsChosen) {
    ReportPage page;
    page.setAnswer(sample::shared(sample::sure()));
    page.show();
    ASSERT_NE(page.pages(), nullptr);
    EXPECT_EQ(page.pages()->report().language, "en");
    auto* chooser = page.findChild<QComboBox*>(QStringLiteral("languageChooser"));
    chooser->setCurrentIndex(chooser->findText(QStringLiteral("Deutsch")));
    EXPECT_EQ(page.pages()->report().language, "de");
    speak(Language::german);
    ReportPage other;
    speak(Language::english);
    QLocale::setDefault(QLocale(QStringLiteral("en_GB")));
    other.setAnswer(sample::shared(sample::sure()));
    other.show();
    EXPECT_EQ(other.pages()->report().language, "de");
}

TEST(ReportPage, ShowsThePagesOfThePdfInAnyWidth) {
    ReportPage page;
    page.setAnswer(sample::shared(sample::sure()));
    page.resize(900, 700);
    page.show();
    ASSERT_NE(page.pages(), nullptr);
    const ReportPreview& preview = *page.preview();
    for (const double width : {400.0, 900.0, 2000.0}) {
        double bottom = 0;
        for (int i = 0; i < page.pages()->count(); ++i) {
            const QRectF place = preview.placeOf(i, width);
            EXPECT_GT(place.top(), bottom);
            EXPECT_GE(place.left(), 0);
            EXPECT_LE(place.right(), width);
            EXPECT_NEAR(place.height() / place.width(),
                        page.pages()->size().height() / page.pages()->size().width(), 1e-9);
            bottom = place.bottom();
        }
        EXPECT_GE(preview.heightForWidth(static_cast<int>(width)), bottom);
    }
    EXPECT_TRUE(preview.accessibleDescription().contains(
        QString::fromStdString(page.pages()->report().answer[0])));
    const QImage picture = page.grab().toImage();
    EXPECT_FALSE(picture.isNull());
}

TEST(ReportPage, SavesWholeFilesAndSaysWhatFailed) {
    ReportPage page;
    page.setAnswer(sample::shared(sample::sure()));
    QTemporaryDir folder;
    const QString pdf = folder.filePath(QStringLiteral("r.pdf"));
    EXPECT_TRUE(page.save(pdf, ReportPage::As::pdf));
    EXPECT_EQ(page.said(), QStringLiteral("r.pdf was saved."));
    QFile file(pdf);
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    EXPECT_TRUE(file.read(5) == "%PDF-");
    EXPECT_FALSE(page.save(folder.filePath(QStringLiteral("no/r.pdf")), ReportPage::As::pdf));
    EXPECT_TRUE(page.said().startsWith(QStringLiteral("r.pdf was not saved: ")))
        << page.said().toStdString();
}

TEST(ReportPage, PaperAndLogoChangeThePages) {
    ReportPage page;
    page.setAnswer(sample::shared(sample::sure()));
    page.show();
    ASSERT_NE(page.pages(), nullptr);
    EXPECT_EQ(page.pages()->paper(), Paper::a4);
    page.findChild<QComboBox*>(QStringLiteral("paperChooser"))->setCurrentIndex(1);
    EXPECT_EQ(page.pages()->paper(), Paper::letter);
    const auto starts_with_a_picture = [&] {
        return page.pages()->placed().front().text.isEmpty();
    };
    EXPECT_FALSE(starts_with_a_picture());
    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("logo.png"));
    ASSERT_TRUE(logo().save(path));
    EXPECT_TRUE(page.useLogo(path));
    EXPECT_TRUE(starts_with_a_picture());
    EXPECT_FALSE(page.useLogo(folder.filePath(QStringLiteral("none.png"))));
    EXPECT_TRUE(starts_with_a_picture()) << "the logo stays";
    EXPECT_TRUE(page.useLogo({}));
    EXPECT_FALSE(starts_with_a_picture());
}

TEST(ReportPage, OldFiguresCannotBeSaved) {
    ReportPage page;
    auto* button = page.findChild<QPushButton*>(QStringLiteral("reportPdf"));
    EXPECT_FALSE(button->isEnabled());
    page.setAnswer(sample::shared(sample::sure()));
    EXPECT_TRUE(button->isEnabled());
    page.setUpdating(true);
    EXPECT_FALSE(button->isEnabled());
    page.setUpdating(false);
    EXPECT_TRUE(button->isEnabled());
    page.setAnswer(nullptr);
    EXPECT_FALSE(button->isEnabled());
    EXPECT_EQ(page.pages(), nullptr);
}

TEST(ReportPictures, SayWholeWordsAndAreTheirOwnSize) {
    Answer a = sample::answer();
    a.outlook.boxes[0].name = "old mill";
    const ReportPictures pictures(a);
    using Of = ReportPicture::Of;
    const std::string gauge = pictures.svg({Of::gauge, 0, "", ""}).elements;
    EXPECT_NE(gauge.find(">old mill<"), std::string::npos) << gauge;
    const std::string week = pictures.svg({Of::week, 0, "", ""}).elements;
    EXPECT_NE(week.find(">run, middle forecast<"), std::string::npos) << week;
    for (const Of of : {Of::gauge, Of::fill, Of::week}) {
        EXPECT_GT(pictures.height({of, 0, "", ""}, 640, report_font(11)), 50);
        EXPECT_EQ(pictures.height({of, 99, "", ""}, 640, report_font(11)), 0) << "there is none";
        EXPECT_TRUE(pictures.svg({of, 99, "", ""}).elements.empty());
    }
}

TEST(ReportLogo, TakesPngAndJpegAndMakesThemSmall) {
    for (const char* format : {"PNG", "JPEG"}) {
        QImage large(4000, 1000, QImage::Format_RGB32);
        large.fill(Qt::blue);
        QByteArray bytes;
        QBuffer buffer(&bytes);
        ASSERT_TRUE(buffer.open(QIODevice::WriteOnly) && large.save(&buffer, format));
        const auto picture = read_logo(bytes);
        ASSERT_TRUE(picture) << format;
        EXPECT_EQ(picture->size(), QSize(800, 200));
    }
    EXPECT_TRUE(read_logo({})->isNull());
    EXPECT_FALSE(read_logo("<svg xmlns='http://www.w3.org/2000/svg'/>"));
    EXPECT_FALSE(read_logo("\x89PNG\r\n\x1a\nrubbish"));
}

}  // namespace
}  // namespace ullage
