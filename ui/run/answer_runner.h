// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Answers in the background: the newest site wins, the window never waits.
///
/// One thread lives as long as the runner. A request waits for a pause (so that typing does not
/// start a run per letter), then stops the run before it and takes its place: a quick pass with few
/// paths gives a preview, then the full pass replaces it. If the requests never pause, a run starts
/// anyway now and then, so that a dragged slider shows life. Every run has a generation; what comes
/// from an older one is dropped, so a late answer never overwrites a newer one. Answers are
/// immutable and shared. All signals come on the thread that owns the runner.
///
/// States: idle (the newest request is answered, or there was none), updating, cancelled (the
/// newest request was given up by the user; the last answer is out of date), failed (the newest
/// request could not be answered).

#include "core/findings/findings.h"

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>

namespace ullage::ui {

/// What an answer is asked for.
struct Question {
    std::shared_ptr<const Site> site;
    std::shared_ptr<const Evidence> evidence;
    Settings settings;
};

class AnswerRunner : public QObject {
    Q_OBJECT

public:
    using Result = tl::expected<Answer, ComputeError>;
    /// Called on the runner's thread; must look at the progress' stop token often. An exception
    /// derived from std::exception counts as a problem with its text.
    using Compute =
        std::function<Result(const Site&, const Evidence&, const Settings&, const Progress&)>;

    enum class State { idle, updating, cancelled, failed };
    Q_ENUM(State)
    /// soon: after a pause, for typing and dragging. now: for undo, open, paste.
    enum class Pace { soon, now };

    static constexpr int quick_paths = 200;  ///< of the preview; no preview if not fewer than asked
    static constexpr int pause_ms = 150;
    static constexpr int longest_pause_ms = 600;  ///< if the requests never pause
    static constexpr int progress_every_ms = 33;

    explicit AnswerRunner(Compute compute, QObject* parent = nullptr);
    /// Stops what runs and waits for it.
    ~AnswerRunner() override;

    State state() const { return state_; }
    double progress() const { return progress_; }

    void request(Question question, Pace pace = Pace::soon);
    /// Gives up the newest request, run or not. Does nothing unless updating.
    void cancel();
    /// Asks the last question again.
    void retry();
    /// Forgets the question and the state (the site was closed or cannot be computed).
    void reset();

signals:
    /// `preview`: of the quick pass, or of a site that has been edited since; a better one follows.
    void answered(std::shared_ptr<const ullage::Answer> answer, bool preview);
    void failed(const ullage::Problems& problems);
    void stateChanged(ullage::ui::AnswerRunner::State state);
    void progressChanged(double share);  ///< 0…1 of the newest request

private:
    struct Job {
        Question question;
        std::uint64_t generation = 0;
        std::stop_source stop;
    };

    void post();
    void stopCurrent();
    void setState(State state);
    void work(const std::stop_token& ending);
    /// Returns false if the job is over (stopped or failed).
    bool pass(const Job& job, int paths, bool preview, double from, double to);
    template <class Do>
    void deliver(std::uint64_t generation, Do&& action);

    Compute compute_;
    State state_ = State::idle;
    double progress_ = 0;
    std::uint64_t generation_ = 0;  ///< of the newest run
    std::optional<Question> question_;
    std::stop_source current_{std::nostopstate};
    QTimer pause_;
    QElapsedTimer waiting_since_;

    std::mutex mutex_;
    std::condition_variable_any wake_;
    std::optional<Job> mailbox_;
    std::jthread thread_;  ///< last: it ends before what it uses
};

}  // namespace ullage::ui
