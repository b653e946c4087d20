// SPDX-License-Identifier: GPL-3.0-or-later
// A send whose runs may not overlap is a queue with one server: the known laws must come out.
#include "replay_testing.h"

#include <cmath>
#include <random>

namespace ullage {
namespace {

using namespace testing;

TEST(Queue, FollowsLindleysRecursion) {
    // D. V. Lindley 1952: W(n+1) = max(0, W(n) + S(n) − T(n)). Services 4,3,2,5,1,4,3,2, gaps before
    // jobs 2…8 of 3,1,6,2,2,9,1: W = 0,1,3,0,3,2,0,2 (worked by hand).
    const std::vector<double> service = {4, 3, 2, 5, 1, 4, 3, 2};
    const std::vector<std::int64_t> gaps = {3, 1, 6, 2, 2, 9, 1};
    const std::vector<double> wait = {0, 1, 3, 0, 3, 2, 0, 2};
    constexpr std::int64_t unit = 1000;  // s
    std::vector<std::int64_t> due = {0};
    for (const auto g : gaps) due.push_back(due.back() + g * unit);
    std::vector<double> bytes;
    for (const double s : service) bytes.push_back(s * double(unit) * mb);
    const auto runs = replay({line({{0, day}})}, {send_due(due)}, at(day), bytes_by_due(due, bytes));
    // Jobs that wait together are carried by one run, which ends when the last of them would.
    std::size_t jobs = 0;
    for (const auto& r : runs[0]) {
        const auto n = static_cast<std::size_t>(std::find(due.begin(), due.end(), after(r.snapshot)) - due.begin());
        ASSERT_LT(n, due.size());
        EXPECT_EQ(after(r.done), due[n] + std::int64_t((wait[n] + service[n]) * unit)) << "job " << n + 1;
        jobs = n + 1;
    }
    EXPECT_EQ(jobs, 8u);
}

TEST(Queue, NightlyBacklogIsWhatTheNightsLeaveOver) {
    // Q = max(0, Q + a − c) with c = 110 GB a night: 10, 0, 90, 130, 110, 60, 10 GB (by hand).
    const std::vector<double> a = {120, 80, 200, 150, 90, 60, 60};
    const std::vector<double> backlog = {10, 0, 90, 130, 110, 60, 10};
    std::vector<Open> nights;
    std::vector<std::int64_t> due;
    std::vector<double> bytes;
    for (std::int64_t n = 0; n < 8; ++n) nights.push_back({n * day, n * day + 11 * hour});
    for (std::size_t n = 0; n < a.size(); ++n) {
        due.push_back(std::int64_t(n) * day);
        bytes.push_back(a[n] * 1e9);
    }
    const double rate = 110e9 / (11 * 3600);
    const auto runs = replay({line(nights, rate / mb)}, {send_due(due)}, at(8 * day), bytes_by_due(due, bytes));
    // A run that ends after its night's close, a backlog of Q behind it, ends Q ÷ rate into a later night.
    for (std::size_t n = 0; n < a.size(); ++n) {
        // Carried by the close of night n: runs done, and the part of the one going that fits.
        double carried = 0;
        const std::int64_t close = std::int64_t(n) * day + 11 * hour;
        for (const auto& r : runs[0]) {
            if (after(r.begun) >= close) continue;
            if (after(r.done) <= close) {
                carried += r.bytes;
                continue;
            }
            double open_seconds = 0;
            for (const auto& o : nights)
                open_seconds += double(std::max<std::int64_t>(0, std::min(o.to, close) - std::max(o.from, after(r.begun))));
            carried += open_seconds * rate;
        }
        double asked = 0;
        for (std::size_t i = 0; i <= n; ++i) asked += bytes[i];
        EXPECT_NEAR((asked - carried) / 1e9, backlog[n], 0.02) << "night " << n + 1;
    }
}

/// Mean unfinished work of a single server, in units of the mean service, from the trace of a replay:
/// by PASTA it is the mean wait of a queue served in order.
double mean_work(std::mt19937_64& random, double load, bool exponential_service) {
    constexpr double mean_service = 10'000;  // s
    constexpr int jobs = 6000;
    const auto draw = [&] { return -std::log((double(random() >> 11) + 0.5) / 9007199254740992.0); };
    std::vector<std::int64_t> due;
    std::vector<double> service;
    double t = 0;
    for (int i = 0; i < jobs; ++i) {
        t += draw() * mean_service / load;
        due.push_back(std::int64_t(std::llround(t)));
        if (i > 0) due.back() = std::max(due.back(), due[std::size_t(i) - 1] + 1);
        service.push_back(mean_service * (exponential_service ? draw() : 1));
    }
    std::vector<double> sum_before = {0};
    for (const double s : service) sum_before.push_back(sum_before.back() + s);
    const auto index = [&](Instant to) {
        return std::size_t(std::upper_bound(due.begin(), due.end(), after(to)) - due.begin());
    };
    const std::int64_t end = due.back();
    auto send = send_due(due);
    send.hold_last_sent = true;
    const auto runs = replay({line({{-day, end}})}, {send}, at(end),
                             [&](int, int, Instant from, Instant to) {
                                 return (sum_before[index(to)] - sum_before[index(from)]) * mb;
                             });
    double area = 0;
    std::size_t job = 0;
    for (const auto& r : runs[0]) {
        const double took = r.bytes / mb;
        if (r.finished) area += took * took / 2;  // while it goes, its work falls to nothing
        for (; job < due.size() && due[job] <= after(r.snapshot); ++job)
            area += service[job] * std::max(0.0, double(after(r.begun) - due[job]));
    }
    return area / double(end) / mean_service;
}

void expect_mean_wait(double load, bool exponential_service, double law) {
    std::mt19937_64 random(exponential_service ? 91 : 92);
    constexpr int replications = 40;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < replications; ++i) {
        const double w = mean_work(random, load, exponential_service);
        sum += w;
        squares += w * w;
    }
    const double mean = sum / replications;
    const double error = std::sqrt((squares / replications - mean * mean) / (replications - 1));
    EXPECT_NEAR(mean, law, 3 * error) << "load " << load;
    EXPECT_LT(error, 0.04 * law) << "the test must be sharp";
}

// Normalised to a mean service of 1. M/D/1: ρ ÷ 2(1 − ρ); M/M/1: ρ ÷ (1 − ρ) (Saylor Academy's open
// course text, s. 4.5; Ciw library documentation).
TEST(Queue, MeanWaitWithConstantServiceIsThatOfMD1) {
    expect_mean_wait(0.5, false, 0.5);
    expect_mean_wait(0.7, false, 1.1667);
}

TEST(Queue, MeanWaitWithExponentialServiceIsThatOfMM1) {
    expect_mean_wait(0.5, true, 1.0);
    expect_mean_wait(0.6, true, 1.5);
}

}  // namespace
}  // namespace ullage
