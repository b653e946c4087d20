// SPDX-License-Identifier: GPL-3.0-or-later
// A long day with the window: random edits, undos, pages, opened and closed sites, with the real forecast behind
// them. Memory in use must not grow. ctest takes a short one; by hand, best under the sanitizers:
//   ULLAGE_LONG_USE=5000 test_long_use
#include "core/site/site_json.h"
#include "ui/window/main_window.h"
#include "ui/window/window_settings.h"

#include <QAction>
#include <QApplication>
#include <QDir>
#include <QTabWidget>
#include <QTest>

#include <gtest/gtest.h>
#include <malloc.h>

#include <cstdlib>
#include <random>

// Of the address sanitizer, where it is built in.
extern "C" std::size_t __sanitizer_get_current_allocated_bytes() __attribute__((weak));

namespace ullage::ui {
namespace {

double megabytes_in_use() {
    if (__sanitizer_get_current_allocated_bytes)
        return static_cast<double>(__sanitizer_get_current_allocated_bytes()) / 1e6;
    const auto all = mallinfo2();
    return static_cast<double>(all.uordblks + all.hblkhd) / 1e6;
}

int asked_for(int usual) {
    const char* const given = std::getenv("ULLAGE_LONG_USE");
    return given ? std::atoi(given) : usual;
}

class LongUse : public ::testing::Test {
protected:
    void SetUp() override {
        windowSettings().clear();
        window.resize(1280, 800);
        window.show();
        for (const QString& name : QDir(samples).entryList({QStringLiteral("*.site.json")}, QDir::Files, QDir::Name))
            files << samples + QLatin1Char('/') + name;
        ASSERT_GE(files.size(), 6);
    }

    static Settings few() {
        Settings settings;
        settings.paths = 24;
        settings.searched = false;
        return settings;
    }
    bool settled() {
        constexpr int patience_ms = 60000;
        return QTest::qWaitFor(
            [&] { return window.runner().state() != AnswerRunner::State::updating; }, patience_ms);
    }
    int below(int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); }
    template <class Items>
    auto& any(Items& items) {
        return items[std::size_t(below(static_cast<int>(items.size())))];
    }

    /// Anything a form can do; what it makes may be wrong, as it may be under a user's hands.
    void edit(Site& site) {
        switch (below(9)) {
            case 0: any(site.datasets).live = Entered<Bytes>(Bytes{1e9 * (1 + below(20000))}); break;
            case 1: any(site.datasets).growth.emplace().per_year.value.value = 1e9 * (below(4000) - 500); break;
            case 2: any(site.datasets).ladder = {Rung{{Period{1, Period::Unit::day}}, 1 + below(60), {}, {}}}; break;
            case 3: any(site.boxes).ceiling = 0.5 + below(50) / 100.0; break;
            case 4: any(site.links).up = Entered<BitsPerSecond>(BitsPerSecond{1e6 * (1 + below(1000))}); break;
            case 5: any(site.sends).at = 3600 * below(24); break;
            case 6: any(site.boxes).lead_time = Entered<Duration>(days(below(90))); break;
            case 7: site.name = "Site " + std::to_string(below(1000)); break;
            default: {
                Event event;
                event.on = site.as_of + std::chrono::days{30 + below(300)};
                event.amount.value.value = 1e9 * (1 + below(500));
                auto& events = any(site.datasets).events;
                if (events.size() > 6) events.clear();
                events.push_back(event);
            }
        }
    }

    void one_thing() {
        auto& document = window.document();
        auto& tabs = *window.findChild<QTabWidget*>();
        switch (below(10)) {
            case 0: document.undoStack()->undo(); break;
            case 1: document.undoStack()->redo(); break;
            case 2: tabs.setCurrentIndex(below(tabs.count())); break;
            case 3: window.showPointer(QStringLiteral("/boxes/%1").arg(below(3))); break;
            case 4: window.showPointer(QStringLiteral("/datasets/%1").arg(below(3))); break;
            default: document.editSite(QStringLiteral("something"), [&](Site& site) { edit(site); });
        }
        QApplication::processEvents();
        if (below(8) == 0) {
            EXPECT_TRUE(settled());
        }
    }

    const QString samples = QStringLiteral(ULLAGE_SOURCE_DIR "/sample-sites");
    QStringList files;
    std::mt19937 random{20261126};
    MainWindow window{few()};
};

TEST_F(LongUse, EditsUndosAndPagesLeaveNothingBehind) {
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
    window.openSample(samples + QStringLiteral("/saltmarsh-seeds.site.json"));
    ASSERT_TRUE(window.document().isOpen());
    // The undo stack fills up first (200 steps), and what Qt keeps for later.
    const int edits = asked_for(400);
    const int warm = std::max(edits / 2, 350);
    double before = 0;
    for (int i = 0; i < warm + edits / 2; ++i) {
        if (i == warm) {
            ASSERT_TRUE(settled());
            before = megabytes_in_use();
        }
        one_thing();
    }
    ASSERT_TRUE(settled());
    const double after = megabytes_in_use();
    RecordProperty("megabytes_before", std::to_string(before));
    RecordProperty("megabytes_after", std::to_string(after));
    EXPECT_LT(after, before * 1.15 + 4) << before << " MB after " << warm << " things, " << after << " MB at the end";
}

TEST_F(LongUse, OpeningAndClosingSitesLeavesNothingBehind) {
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
    const int times = std::max(asked_for(400) / 25, 16);
    const auto open = [&](int i) {
        window.openSample(files[i % files.size()]);
        ASSERT_TRUE(settled());
        window.document().close();
        QApplication::processEvents();
    };
    for (int i = 0; i < std::max<int>(times / 2, static_cast<int>(files.size())); ++i) open(i);
    const double before = megabytes_in_use();
    for (int i = 0; i < times; ++i) open(i);
    EXPECT_LT(megabytes_in_use(), before * 1.15 + 4) << before << " MB before";
}

}  // namespace
}  // namespace ullage::ui
