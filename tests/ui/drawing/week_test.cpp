// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/week/week_strips.h"

#include "tests/ui/drawing/drawn.h"
#include "tests/ui/sample_answer.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"
#include "ui/week/limit_chain.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>

#include <random>

namespace ullage {
namespace {

TEST(DayPieces, AddUpToTheirStretch) {
    std::mt19937 random(5);
    for (int round = 0; round < 500; ++round) {
        const double from = std::uniform_real_distribution<>(-30, 190)(random);
        const double to = from + std::uniform_real_distribution<>(0, 200)(random);
        double sum = 0;
        for (const DayPiece& p : day_pieces(from, to)) {
            EXPECT_GE(p.day, 0);
            EXPECT_LE(p.day, 6);
            EXPECT_GE(p.from, 0);
            EXPECT_LE(p.to, 24 + 1e-9);
            EXPECT_LT(p.from, p.to);
            sum += p.to - p.from;
        }
        EXPECT_NEAR(sum, std::max(0.0, std::min(to, 168.0) - std::max(from, 0.0)), 1e-9);
    }
}

TEST(DayPieces, GoOnInTheNextStripAndAreCutAfterSunday) {
    const auto night = day_pieces(20, 30);
    ASSERT_EQ(night.size(), 2u);
    EXPECT_EQ(night[0].day, 0);
    EXPECT_TRUE(night[0].first && !night[0].last);
    EXPECT_EQ(night[1].day, 1);
    EXPECT_DOUBLE_EQ(night[1].to, 6);
    EXPECT_TRUE(night[1].last && !night[1].cut);
    const auto sunday = day_pieces(160, 175);
    ASSERT_EQ(sunday.size(), 1u);
    EXPECT_TRUE(sunday[0].cut);
}

TEST(HourOfWeek, IsByTheClockOnTheSitesWall) {
    using namespace std::chrono;
    const Day monday = sys_days(year(2026) / 11 / 2);
    const Instant start = Instant(monday) + std::chrono::hours(19);
    EXPECT_DOUBLE_EQ(hour_of_week(start, monday, TimeZone()), 19);
    const auto berlin = TimeZone::find("Europe/Berlin");
    ASSERT_TRUE(berlin);
    // Central European Time in November is UTC+1 (IANA time zone database).
    EXPECT_DOUBLE_EQ(hour_of_week(start, monday, *berlin), 20);
}

TEST(WeekStrips, StripsAndAxisLieWithinTheWidget) {
    WeekStrips week;
    for (const double width : {300.0, 500.0, 730.0, 1400.0})
        for (const double size : {9.0, 18.0}) {
            QFont font = QApplication::font();
            font.setPointSizeF(size);
            const WeekGeometry g = week.geometryFor(width, font);
            for (int day = 0; day < 7; ++day) {
                EXPECT_GE(g.day(day).left(), g.label_width);
                EXPECT_LE(g.day(day).right(), width);
                EXPECT_LT(g.day(day).bottom(), g.axis_top + 1);
            }
            EXPECT_GT(g.height, g.axis_top);
        }
}

TEST(WeekStrips, SaysWhatIsUnderThePointer) {
    WeekStrips week;
    const SendOutlook send = sample::send("nightly", false);
    week.setSend(&send, TimeZone());
    week.resize(730, week.heightForWidth(730));
    const WeekGeometry g = week.geometryFor(730, week.font());
    const auto at = [&](int day, double hour) {
        return week.wordsAt(QPointF(g.x(hour), g.day(day).center().y()));
    };
    EXPECT_TRUE(at(0, 20.2).contains(Words::bytes(send.week[0].bytes_p50, Prefixes::decimal)));
    EXPECT_TRUE(at(0, 3).contains(QStringLiteral("80\u00A0%")));
    EXPECT_TRUE(at(0, 12).contains(QStringLiteral("Closed")));
    EXPECT_TRUE(at(5, 12).contains(QStringLiteral("100\u00A0%")));
    EXPECT_TRUE(week.wordsAt(QPointF(-5, -5)).isEmpty());
}

TEST(WeekStrips, SaysLateRunsInWordsAndDrawsThemDifferently) {
    WeekStrips week;
    const SendOutlook good = sample::send("nightly", false);
    SendOutlook late = good;
    for (auto& run : late.week) run.late_p50 = run.late_p95 = true;
    week.resize(730, week.heightForWidth(730));
    week.setSend(&good, TimeZone());
    week.setState(ShownState::ready);
    const QImage before = picture_of(week);
    EXPECT_FALSE(week.accessibleDescription().contains(QStringLiteral("late")));
    week.setSend(&late, TimeZone());
    EXPECT_TRUE(week.accessibleDescription().contains(QStringLiteral("late")));
    EXPECT_NE(before, picture_of(week));
}

TEST(WeekStrips, SurvivesNothingAndEverything) {
    WeekStrips week;
    week.resize(500, 250);
    week.show();
    settle();
    SendOutlook send;
    week.setSend(&send, TimeZone());
    settle();
    send.week_of = sample::send("n", false).week_of;
    for (int i = 0; i < 24 * 7 * 4; ++i) {
        RunOfWeek run;
        run.start = Instant(send.week_of) + std::chrono::minutes(15 * i);
        run.hours_p50 = i % 7;
        run.hours_p95 = i % 50;
        run.late_p95 = i % 3 == 0;
        send.week.push_back(run);
    }
    send.open_week.push_back({0, 168, 1});
    week.setSend(&send, TimeZone());
    EXPECT_GT(colours_in(picture_of(week)), 5);
    EXPECT_LT(week.accessibleDescription().size(), 2000)
        << "hundreds of runs are counted, not listed";
    week.setSend(nullptr, TimeZone());
    settle();
}

TEST(WeekStrips, FollowsLightAndDark) {
    WeekStrips week;
    const SendOutlook send = sample::send("nightly", true);
    week.setSend(&send, TimeZone());
    week.resize(730, week.heightForWidth(730));
    const QImage light = picture_of(week);
    week.setPalette(dark_palette());
    EXPECT_GT(lightness_of(light), 180);
    EXPECT_LT(lightness_of(picture_of(week)), 110);
}

TEST(LimitChain, NamesTheLimitThatBindsAndTheNext) {
    LimitChain chain;
    const SendOutlook send = sample::send("nightly", false);
    chain.setGoodput(&send.goodput, send.bound_by);
    EXPECT_TRUE(chain.sentence().contains(limit_name(send.goodput.bound_by)));
    EXPECT_TRUE(chain.sentence().contains(limit_name(send.goodput.next_limit)));
    EXPECT_TRUE(chain.sentence().contains(Words::rate(send.goodput.next_bits_per_second)));
    EXPECT_TRUE(chain.accessibleDescription().contains(chain.sentence()));
    EXPECT_TRUE(chain.accessibleDescription().contains(QStringLiteral("binds")));
    chain.setGoodput(&send.goodput, Limit::hours);
    EXPECT_TRUE(chain.sentence().contains(QStringLiteral("open hours")));
}

TEST(LimitChain, StepsGoDownAndTextsDoNotOverlap) {
    for (const bool late : {false, true}) {
        LimitChain chain;
        SendOutlook send = sample::send("nightly", late);
        for (auto& step : send.goodput.chain)
            if (step.name == "ip" || step.name == "tcp") step.own_bits_per_second *= 1.02;
        chain.setGoodput(&send.goodput, send.bound_by);
        for (const double width : {280.0, 420.0, 730.0, 1300.0}) {
            double height = 0;
            const auto rows = chain.rowsFor(width, chain.font(), &height);
            ASSERT_EQ(rows.size(), send.goodput.chain.size());
            std::vector<QRectF> boxes;
            for (std::size_t i = 0; i < rows.size(); ++i) {
                if (i > 0) {
                    EXPECT_LE(rows[i].bar.width(), rows[i - 1].bar.width() + 1e-9);
                }
                boxes.push_back(rows[i].name_place);
                boxes.push_back(rows[i].rate_place);
                boxes.push_back(rows[i].bar);
                if (!rows[i].own.isEmpty()) boxes.push_back(rows[i].own_place);
                EXPECT_EQ(rows[i].binding, rows[i].own == QStringLiteral("binds"));
                if (rows[i].name.contains(QStringLiteral("headers"))) {
                    EXPECT_TRUE(rows[i].own.isEmpty()) << "headers limit nothing by themselves";
                }
            }
            EXPECT_FALSE(any_overlap(boxes)) << width;
            for (const QRectF& box : boxes) {
                EXPECT_LE(box.bottom(), height + 0.5);
                EXPECT_LE(box.right(), width + 0.5);
            }
        }
    }
}

TEST(LimitChain, HasWordsForEveryStepOfTheModel) {
    for (const char* key : {"line", "share", "framing", "ip", "tcp", "vlan", "pppoe", "wireguard",
                            "esp", "esp-udp", "ssh", "tls", "window", "loss", "cipher", "disk"})
        EXPECT_NE(limit_step_words(key).toStdString(), key);
    EXPECT_EQ(limit_step_words("something new"), QStringLiteral("something new"));
}

TEST(LimitChain, SurvivesNothing) {
    LimitChain chain;
    chain.resize(400, 100);
    chain.show();
    settle();
    const Goodput none;
    chain.setGoodput(&none, Limit::rate);
    settle();
    chain.setGoodput(nullptr, Limit::rate);
    settle();
    EXPECT_TRUE(chain.sentence().isEmpty());
}

}  // namespace
}  // namespace ullage
