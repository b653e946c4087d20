// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/run/answer_runner.h"

#include <algorithm>
#include <chrono>
#include <exception>
#include <mutex>
#include <new>

namespace ullage::ui {

namespace {

/// Of the whole progress, by the share of the paths it works.
double shareOfQuickPass(int paths) {
    return static_cast<double>(AnswerRunner::quick_paths) / (AnswerRunner::quick_paths + paths);
}

}  // namespace

AnswerRunner::AnswerRunner(Compute compute, QObject* parent)
    : QObject(parent), compute_(std::move(compute)) {}

void AnswerRunner::request(Question question, Pace pace) {
    question_ = std::move(question);
    task_.post([this, asked = *question_](const LatestTask::Turn& turn) { work(asked, turn); },
               pace);
    progress_ = 0;
    emit progressChanged(0);
    setState(State::updating);
}

void AnswerRunner::retry() {
    if (question_) request(*question_, Pace::now);
}

void AnswerRunner::cancel() {
    if (state_ != State::updating) return;
    task_.drop();
    setState(State::cancelled);
}

void AnswerRunner::reset() {
    question_.reset();
    task_.drop();
    setState(State::idle);
}

void AnswerRunner::setState(State state) {
    if (state == state_) return;
    state_ = state;
    emit stateChanged(state);
}

void AnswerRunner::work(const Question& question, const LatestTask::Turn& turn) {
    const int paths = question.settings.paths;
    double full_from = 0;
    if (paths > quick_paths) {
        full_from = shareOfQuickPass(paths);
        if (!pass(question, turn, quick_paths, true, 0, full_from)) return;
    }
    pass(question, turn, paths, false, full_from, 1);
}

bool AnswerRunner::pass(const Question& question, const LatestTask::Turn& turn, int paths,
                        bool preview, double from, double to) {
    Settings settings = question.settings;
    settings.paths = paths;
    settings.judged = settings.judged && !preview;
    settings.searched = settings.searched && !preview;

    std::mutex report_mutex;  // the core may report from any of its threads
    auto last = std::chrono::steady_clock::now();
    Progress progress;
    progress.stop = turn.stop;
    progress.report = [&](double share) {
        {
            const std::lock_guard lock(report_mutex);
            const auto now = std::chrono::steady_clock::now();
            if (now - last < std::chrono::milliseconds(progress_every_ms)) return;
            last = now;
        }
        const double whole = from + (to - from) * std::clamp(share, 0.0, 1.0);
        turn.deliver([this, whole] {
            progress_ = whole;
            emit progressChanged(whole);
        });
    };

    Result result = tl::make_unexpected(ComputeError(Cancelled{}));
    try {
        result = compute_(*question.site, *question.evidence, settings, progress);
    } catch (const std::bad_alloc&) {
        result = tl::make_unexpected(ComputeError(Problems{
            {"", tr("Not enough memory for %Ln futures.", nullptr, paths).toStdString()}}));
    } catch (const std::exception& fault) {
        result = tl::make_unexpected(ComputeError(
            Problems{{"", tr("The calculation broke off: %1").arg(fault.what()).toStdString()}}));
    }

    if (result) {
        if (turn.stop.stop_requested()) return false;
        auto answer = std::make_shared<const Answer>(std::move(*result));
        turn.deliver([this, answer = std::move(answer), preview] {
            // While a newer question waits for its pause, this answer is out of date already.
            const bool is_last = !preview && !task_.isWaiting();
            if (is_last) progress_ = 1;
            emit answered(answer, !is_last);
            if (is_last) setState(State::idle);
        });
        return true;
    }
    if (const auto* problems = std::get_if<Problems>(&result.error())) {
        turn.deliver([this, problems = *problems] {
            if (task_.isWaiting()) return;
            setState(State::failed);
            emit failed(problems);
        });
    } else {
        turn.deliver([this] {
            if (!task_.isWaiting()) setState(State::cancelled);
        });
    }
    return false;
}

}  // namespace ullage::ui
