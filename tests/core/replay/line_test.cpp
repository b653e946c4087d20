// SPDX-License-Identifier: GPL-3.0-or-later
// A line with random arrivals is a queue with one server: the known laws must come out. A transfer
// of a megabit on a line of a megabit a second is a service of one second.
#include "replay_testing.h"

#include <cmath>
#include <random>

namespace ullage {
namespace {

using namespace testing;

constexpr double begins = 1.8e9;  // seconds since 1970, where times are as coarse as in a forecast

ReplayLink server(Sharing sharing) {
    ReplayLink link;
    link.line_bits_per_second = 1e6;
    link.open = {
        {Instant(std::chrono::seconds(0)), Instant(std::chrono::seconds(4'000'000'000)), 1}};
    link.sharing = sharing;
    return link;
}

struct Job {
    double arrives = 0, service = 0;
    double done = 0;
};

void serve(std::vector<Job>& jobs, const ReplayLink& link) {
    Line line(link);
    double now = begins;
    std::size_t next_job = 0;
    for (;;) {
        const double arrival = next_job < jobs.size() ? begins + jobs[next_job].arrives : never_s;
        const double next = std::min(arrival, line.next_event(now));
        if (next == never_s) return;
        for (const auto& t : line.advance(now, next)) jobs[t.id].done = next - begins;
        now = next;
        if (now == arrival) {
            Transfer t;
            t.id = next_job;
            t.bits_left = jobs[next_job].service * 1e6;
            line.begin(t);
            ++next_job;
        }
    }
}

TEST(Line, EveryTransferEndsUpToTheYear9999) {
    // A step that the time cannot resolve would never end it.
    for (const double year : {1970.0, 2026.0, 3000.0, 6571.0, 9999.0}) {
        ReplayLink link;
        link.line_bits_per_second = 3.7e7;
        link.open = {{Instant(std::chrono::seconds(0)), Instant(std::chrono::seconds(400'000'000'000)), 1}};
        Line line(link);
        double now = (year - 1970) * 365.2425 * 86400, seconds = 0;
        std::mt19937 draw(7);
        for (int job = 0; job < 2000; ++job) {
            Transfer t;
            t.bits_left = std::uniform_real_distribution<double>(1, 1e10)(draw);
            seconds += t.bits_left / link.line_bits_per_second;
            line.begin(t);
            int steps = 0;
            for (; !line.transfers().empty() && steps < 10; ++steps) {
                const double next = line.next_event(now);
                line.advance(now, next);
                now = next;
            }
            ASSERT_LT(steps, 10) << "job " << job << " in the year " << year;
        }
        EXPECT_NEAR(line.carried_bits() / link.line_bits_per_second / seconds, 1, 1e-6) << year;
    }
}

TEST(Line, InTurnFollowsLindleysRecursionJobByJob) {
    // D. V. Lindley 1952: W(n+1) = max(0, W(n) + S(n) − T(n)). Services 4,3,2,5,1,4,3,2, gaps
    // before jobs 2…8 of 3,1,6,2,2,9,1: W = 0,1,3,0,3,2,0,2 (worked by hand).
    const std::vector<double> service = {4, 3, 2, 5, 1, 4, 3, 2};
    const std::vector<double> gaps = {0, 3, 1, 6, 2, 2, 9, 1};
    const std::vector<double> wait = {0, 1, 3, 0, 3, 2, 0, 2};
    std::vector<Job> jobs;
    double t = 0;
    for (std::size_t i = 0; i < service.size(); ++i) jobs.push_back({t += gaps[i], service[i]});
    serve(jobs, server(Sharing::in_turn));
    for (std::size_t i = 0; i < jobs.size(); ++i)
        EXPECT_NEAR(jobs[i].done - jobs[i].arrives - jobs[i].service, wait[i], 1e-5)
            << "job " << i + 1;
}

TEST(Line, InTurnFollowsLindleysRecursionOnRandomJobs) {
    std::mt19937_64 random(71);
    std::exponential_distribution<double> exponential(1);
    std::vector<Job> jobs;
    double t = 0;
    for (int i = 0; i < 3000; ++i)
        jobs.push_back({t += exponential(random) / 0.8, exponential(random)});
    serve(jobs, server(Sharing::in_turn));
    double wait = 0;
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        if (i > 0)
            wait =
                std::max(0.0, wait + jobs[i - 1].service - (jobs[i].arrives - jobs[i - 1].arrives));
        ASSERT_NEAR(jobs[i].done - jobs[i].arrives - jobs[i].service, wait, 1e-3) << "job " << i;
    }
}

struct Mean {
    double value = 0, error = 0;
};

/// Mean time that a job spends beyond its service, over independent replications, mean service 1.
Mean mean_wait(double load, bool exponential_service, Sharing sharing) {
    std::mt19937_64 random(72);
    std::exponential_distribution<double> exponential(1);
    constexpr int replications = 40;
    constexpr int warm_up = 2000;
    constexpr int jobs_each = 15'000;
    double sum = 0;
    double squares = 0;
    const auto link = server(sharing);
    for (int r = 0; r < replications; ++r) {
        std::vector<Job> jobs;
        double t = 0;
        for (int i = 0; i < jobs_each; ++i)
            jobs.push_back(
                {t += exponential(random) / load, exponential_service ? exponential(random) : 1});
        serve(jobs, link);
        double total = 0;
        for (std::size_t i = warm_up; i < jobs.size(); ++i)
            total += jobs[i].done - jobs[i].arrives - jobs[i].service;
        const double mean = total / (jobs_each - warm_up);
        sum += mean;
        squares += mean * mean;
    }
    const double mean = sum / replications;
    return {mean, std::sqrt((squares / replications - mean * mean) / (replications - 1))};
}

void expect_wait(double load, bool exponential_service, Sharing sharing, double law) {
    const Mean m = mean_wait(load, exponential_service, sharing);
    EXPECT_NEAR(m.value, law, 3 * m.error) << "load " << load;
    EXPECT_LT(m.error, 0.04 * law) << "the test must be sharp";
}

// M/D/1: Wq = ρ ÷ 2(1 − ρ); M/M/1: Wq = ρ ÷ (1 − ρ), in units of the mean service (Saylor Academy's
// open course text, s. 4.5; Ciw library documentation).
TEST(Line, InTurnWithConstantServiceWaitsAsMD1) {
    expect_wait(0.5, false, Sharing::in_turn, 0.5);
    expect_wait(0.8, false, Sharing::in_turn, 2.0);
    // 8 arrivals an hour, 5 minutes each: 5 minutes (a problem in Render and Stair; its answer from
    // memory)
    const Mean m = mean_wait(8.0 / 12, false, Sharing::in_turn);
    EXPECT_NEAR(m.value * 5, 5, 3 * m.error * 5);
}

TEST(Line, ABurstThroughALineThatOpensLateStaysWithinTheBounds) {
    // Token bucket (b, r) through rate-latency (R, T): backlog ≤ b + rT, delay ≤ T + b/R (Le Boudec
    // and Thiran, Network Calculus, s. 1.4, from memory). 50 GB at once, then 2 GB an hour; 5 GB an
    // hour from half past: 51 GB and 10.5 h, both of which this very case comes to.
    constexpr double gigabit = 8e9;
    auto link = server(Sharing::in_turn);
    link.line_bits_per_second = 5 * gigabit / 3600;
    link.open = {{Instant(std::chrono::seconds(std::int64_t(begins) + 1800)),
                  Instant(std::chrono::seconds(std::int64_t(begins) + 400 * hour)), 1}};
    Line line(link);
    double now = begins;
    double backlog = 0;
    double delay = 0;
    std::vector<double> began;
    double next_arrival = begins;
    while (now < begins + 100 * double(hour)) {
        const double next = std::min(next_arrival, line.next_event(now));
        for (const auto& t : line.advance(now, next)) delay = std::max(delay, next - began[t.id]);
        now = next;
        double left = 0;
        for (const auto& t : line.transfers()) left += t.bits_left;
        backlog = std::max(backlog, left);
        if (now != next_arrival) continue;
        Transfer t;
        t.id = began.size();
        t.bits_left = (began.empty() ? 50 : 0.02) * gigabit;
        line.begin(t);
        began.push_back(now);
        next_arrival += 36;
    }
    EXPECT_LE(backlog, 51.0001 * gigabit);
    EXPECT_GE(backlog, 50.9 * gigabit);
    EXPECT_LE(delay, 10.5 * double(hour) + 1e-3);
    EXPECT_NEAR(delay, 10.5 * double(hour), 40);
}

TEST(Line, InTurnWithExponentialServiceWaitsAsMM1) {
    expect_wait(0.5, true, Sharing::in_turn, 1.0);
    expect_wait(0.8, true, Sharing::in_turn, 4.0);
    // λ = 3, μ = 5: Wq = 0.3 (Ciw documentation, mm1)
    const Mean m = mean_wait(0.6, true, Sharing::in_turn);
    EXPECT_NEAR(m.value / 5, 0.3, 3 * m.error / 5);
}

TEST(Line, SharedEvenlyStaysAsAnM1ProcessorSharingQueueWhateverTheService) {
    // Mean stay S ÷ (1 − ρ), so ρ ÷ (1 − ρ) beyond the service, insensitive to its distribution
    // (Kleinrock, Queueing Systems 2, s. 4.4, from memory).
    expect_wait(0.5, true, Sharing::evenly, 1.0);
    expect_wait(0.7, false, Sharing::evenly, 0.7 / 0.3);
}

}  // namespace
}  // namespace ullage
