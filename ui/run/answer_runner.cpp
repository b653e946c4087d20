// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/run/answer_runner.h"

#include <QMetaObject>

#include <algorithm>
#include <chrono>
#include <exception>
#include <new>

namespace ullage::ui {

namespace {

/// Of the whole progress, by the share of the paths it works.
double shareOfQuickPass(int paths) {
    return static_cast<double>(AnswerRunner::quick_paths) / (AnswerRunner::quick_paths + paths);
}

}  // namespace

AnswerRunner::AnswerRunner(Compute compute, QObject* parent)
    : QObject(parent), compute_(std::move(compute)) {
    pause_.setSingleShot(true);
    connect(&pause_, &QTimer::timeout, this, &AnswerRunner::post);
    thread_ = std::jthread([this](const std::stop_token& ending) { work(ending); });
}

AnswerRunner::~AnswerRunner() {
    pause_.stop();
    {
        const std::lock_guard lock(mutex_);
        mailbox_.reset();
    }
    current_.request_stop();
    thread_.request_stop();
    wake_.notify_all();
    thread_.join();
}

void AnswerRunner::request(Question question, Pace pace) {
    question_ = std::move(question);
    if (!pause_.isActive()) waiting_since_.start();
    if (pace == Pace::now || waiting_since_.elapsed() >= longest_pause_ms)
        pause_.start(0);
    else
        pause_.start(static_cast<int>(
            std::min<qint64>(pause_ms, longest_pause_ms - waiting_since_.elapsed())));
    progress_ = 0;
    emit progressChanged(0);
    setState(State::updating);
}

void AnswerRunner::retry() {
    if (question_) request(*question_, Pace::now);
}

void AnswerRunner::cancel() {
    if (state_ != State::updating) return;
    ++generation_;
    pause_.stop();
    stopCurrent();
    setState(State::cancelled);
}

void AnswerRunner::reset() {
    ++generation_;
    question_.reset();
    pause_.stop();
    stopCurrent();
    setState(State::idle);
}

/// Stops the job that runs and takes back the one that waits; their generations are old by now, so
/// neither settles any state.
void AnswerRunner::stopCurrent() {
    const std::lock_guard lock(mutex_);
    mailbox_.reset();
    current_.request_stop();
}

void AnswerRunner::post() {
    if (!question_) return;
    ++generation_;
    stopCurrent();
    {
        const std::lock_guard lock(mutex_);
        current_ = std::stop_source();
        mailbox_ = Job{*question_, generation_, current_};
    }
    wake_.notify_one();
}

void AnswerRunner::setState(State state) {
    if (state == state_) return;
    state_ = state;
    emit stateChanged(state);
}

template <class Do>
void AnswerRunner::deliver(std::uint64_t generation, Do&& action) {
    QMetaObject::invokeMethod(
        this,
        [this, generation, action = std::forward<Do>(action)] {
            if (generation == generation_) action();
        },
        Qt::QueuedConnection);
}

void AnswerRunner::work(const std::stop_token& ending) {
    for (;;) {
        Job job;
        {
            std::unique_lock lock(mutex_);
            if (!wake_.wait(lock, ending, [this] { return mailbox_.has_value(); })) return;
            job = std::move(*mailbox_);
            mailbox_.reset();
        }
        const int paths = job.question.settings.paths;
        double full_from = 0;
        if (paths > quick_paths) {
            full_from = shareOfQuickPass(paths);
            if (!pass(job, quick_paths, true, 0, full_from)) continue;
        }
        pass(job, paths, false, full_from, 1);
    }
}

bool AnswerRunner::pass(const Job& job, int paths, bool preview, double from, double to) {
    const std::uint64_t generation = job.generation;
    Settings settings = job.question.settings;
    settings.paths = paths;
    settings.judged = settings.judged && !preview;

    std::mutex report_mutex;  // the core may report from any of its threads
    auto last = std::chrono::steady_clock::now();
    Progress progress;
    progress.stop = job.stop.get_token();
    progress.report = [&](double share) {
        {
            const std::lock_guard lock(report_mutex);
            const auto now = std::chrono::steady_clock::now();
            if (now - last < std::chrono::milliseconds(progress_every_ms)) return;
            last = now;
        }
        const double whole = from + (to - from) * std::clamp(share, 0.0, 1.0);
        deliver(generation, [this, whole] {
            progress_ = whole;
            emit progressChanged(whole);
        });
    };

    Result result = tl::make_unexpected(ComputeError(Cancelled{}));
    try {
        result = compute_(*job.question.site, *job.question.evidence, settings, progress);
    } catch (const std::bad_alloc&) {
        result = tl::make_unexpected(ComputeError(Problems{
            {"", tr("Not enough memory for %Ln futures.", nullptr, paths).toStdString()}}));
    } catch (const std::exception& fault) {
        result = tl::make_unexpected(ComputeError(
            Problems{{"", tr("The calculation broke off: %1").arg(fault.what()).toStdString()}}));
    }

    if (result) {
        if (job.stop.stop_requested()) return false;
        auto answer = std::make_shared<const Answer>(std::move(*result));
        deliver(generation, [this, answer = std::move(answer), preview] {
            // While a newer question waits for its pause, this answer is out of date already.
            const bool is_last = !preview && !pause_.isActive();
            if (is_last) progress_ = 1;
            emit answered(answer, !is_last);
            if (is_last) setState(State::idle);
        });
        return true;
    }
    if (const auto* problems = std::get_if<Problems>(&result.error())) {
        deliver(generation, [this, problems = *problems] {
            if (pause_.isActive()) return;
            setState(State::failed);
            emit failed(problems);
        });
    } else {
        deliver(generation, [this] {
            if (!pause_.isActive()) setState(State::cancelled);
        });
    }
    return false;
}

}  // namespace ullage::ui
