// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of every page of the window, in light and dark, at the scale QT_SCALE_FACTOR asks for, into the folder
// `pictures` beside the build: to be looked at, and some of them for the README (tests/ui/pictures/readme.sh).
// What is checked here is that each page drew something, and that dark is dark.
#include "tests/ui/access/listing_shown.h"
#include "ui/help/guide_window.h"
#include "ui/window/look.h"
#include "ui/window/main_window.h"
#include "ui/window/window_settings.h"

#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QDir>
#include <QImage>
#include <QTabWidget>
#include <QTest>

#include <gtest/gtest.h>

#include <set>

namespace ullage::ui {
namespace {

struct Page {
    const char* name;
    const char* sample;
};
// In the order of the tabs, each on a sample that has much to show there.
constexpr std::array<Page, 5> pages{{{"fit", "fellside-mapmakers"},
                                     {"arrive", "kestrel-architects"},
                                     {"buy", "saltmarsh-seeds"},
                                     {"sure", "fellside-mapmakers"},
                                     {"report", "saltmarsh-seeds"}}};

class Pictures : public ::testing::TestWithParam<std::tuple<std::size_t, ThemeChoice>> {};

/// Colours that a page has, coarsely: one of nothing but a background has one or two.
std::size_t colours_in(const QImage& image) {
    std::set<QRgb> colours;
    for (int y = 0; y < image.height(); y += 3)
        for (int x = 0; x < image.width(); x += 3) colours.insert(image.pixel(x, y) & 0xFFF0F0F0U);
    return colours.size();
}

constexpr int patience_ms = 60000;

/// Writes the picture of a window, and looks whether there is anything on it and whether dark is dark.
void expectPicture(QWidget& window, const char* what, ThemeChoice theme) {
    const QPixmap picture = window.grab();
    const QImage image = picture.toImage();
    EXPECT_GT(colours_in(image), 12u);
    const double lightness = image.scaled(1, 1, Qt::IgnoreAspectRatio, Qt::SmoothTransformation).pixelColor(0, 0).lightnessF();
    EXPECT_EQ(lightness < 0.45, theme == ThemeChoice::dark) << lightness;
    EXPECT_EQ(lightness > 0.75, theme == ThemeChoice::light) << lightness;

    const QDir folder(QStringLiteral(ULLAGE_PICTURES));
    ASSERT_TRUE(folder.mkpath(QStringLiteral(".")));
    const QString name = folder.filePath(QStringLiteral("%1-%2-%3.png")
                                             .arg(QLatin1String(what),
                                                  theme == ThemeChoice::dark ? QStringLiteral("dark")
                                                                             : QStringLiteral("light"))
                                             .arg(qRound(window.devicePixelRatioF() * 100)));
    EXPECT_TRUE(picture.save(name)) << name.toStdString();
}

class OtherPictures : public ::testing::TestWithParam<ThemeChoice> {};

TEST_P(Pictures, EveryPageDrawsSomething) {
    const auto [tab, theme] = GetParam();
    windowSettings().clear();
    Settings settings;
    settings.paths = 400;
    applyTheme(theme);
    MainWindow window(settings);
    window.setTheme(theme);
    window.resize(1280, 800);
    window.show();
    window.openSample(QStringLiteral(ULLAGE_SOURCE_DIR "/sample-sites/%1.site.json").arg(QLatin1String(pages[tab].sample)));
    ASSERT_TRUE(window.document().isOpen());
    auto* const tabs = window.findChild<QTabWidget*>(QStringLiteral("pages"));
    ASSERT_NE(tabs, nullptr);
    ASSERT_EQ(tabs->count(), static_cast<int>(pages.size()));
    tabs->setCurrentIndex(static_cast<int>(tab));
    ASSERT_TRUE(QTest::qWaitFor([&] { return window.runner().state() == AnswerRunner::State::idle; }, patience_ms));
    QTest::qWait(100);  // what is laid out or drawn a turn of the loop later

    expectPicture(window, pages[tab].name, theme);
}

TEST_P(OtherPictures, TheStartTheGuideAndAComparison) {
    const ThemeChoice theme = GetParam();
    windowSettings().clear();
    qputenv("ULLAGE_SAMPLES", ULLAGE_SOURCE_DIR "/sample-sites");
    Settings settings;
    settings.paths = 400;
    applyTheme(theme);
    MainWindow window(settings);
    window.setTheme(theme);
    window.resize(1280, 800);
    window.show();
    QTest::qWait(2500);  // the cards' own forecasts
    expectPicture(window, "start", theme);

    GuideWindow guide;
    guide.showSection(QStringLiteral("fit"));
    guide.resize(760, 560);
    guide.show();
    QTest::qWait(100);
    expectPicture(guide, "guide", theme);

    ListingShown listing(Site{});
    expectPicture(*listing.dialog, "import", theme);

    window.openSample(QStringLiteral(ULLAGE_SOURCE_DIR "/sample-sites/saltmarsh-seeds.site.json"));
    const auto settled = [&] { return window.runner().state() == AnswerRunner::State::idle; };
    ASSERT_TRUE(QTest::qWaitFor(settled, patience_ms));
    auto* const keep = window.findChild<QAction*>(QStringLiteral("edit.keep"));
    ASSERT_NE(keep, nullptr);
    keep->trigger();
    window.document().editSite(QStringLiteral("growth"), [](Site& site) { site.datasets[0].growth->per_year.value.value /= 2; });
    ASSERT_TRUE(QTest::qWaitFor(settled, patience_ms));
    window.findChild<QTabWidget*>(QStringLiteral("pages"))->setCurrentIndex(0);
    QTest::qWait(100);
    expectPicture(window, "comparison", theme);
}

INSTANTIATE_TEST_SUITE_P(Window, OtherPictures, ::testing::Values(ThemeChoice::light, ThemeChoice::dark),
                         [](const auto& at) { return at.param == ThemeChoice::dark ? "dark" : "light"; });

INSTANTIATE_TEST_SUITE_P(
    Window, Pictures,
    ::testing::Combine(::testing::Range(std::size_t{0}, pages.size()),
                       ::testing::Values(ThemeChoice::light, ThemeChoice::dark)),
    [](const auto& at) {
        return std::string(pages[std::get<0>(at.param)].name) +
               (std::get<1>(at.param) == ThemeChoice::dark ? "_dark" : "_light");
    });

}  // namespace
}  // namespace ullage::ui
