// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Answers in the background: the newest site wins, the window never waits.
///
/// A request takes the place of the one before it (see latest_task.h for pauses and threads): a
/// quick pass with few paths gives a preview, then the full pass replaces it. Answers are immutable
/// and shared. All signals come on the thread that owns the runner.
///
/// States: idle (the newest request is answered, or there was none), updating, cancelled (the
/// newest request was given up by the user; the last answer is out of date), failed (the newest
/// request could not be answered).

#include "core/findings/findings.h"
#include "ui/run/latest_task.h"

#include <QObject>

#include <functional>
#include <memory>
#include <optional>

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
    using Pace = ui::Pace;

    static constexpr int quick_paths = 200;  ///< of the preview; no preview if not fewer than asked
    static constexpr int pause_ms = LatestTask::pause_ms;
    static constexpr int progress_every_ms = 33;

    explicit AnswerRunner(Compute compute, QObject* parent = nullptr);

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
    void setState(State state);
    void work(const Question& question, const LatestTask::Turn& turn);
    /// Returns false if the run is over (stopped or failed).
    bool pass(const Question& question, const LatestTask::Turn& turn, int paths, bool preview,
              double from, double to);

    Compute compute_;
    State state_ = State::idle;
    double progress_ = 0;
    std::optional<Question> question_;
    LatestTask task_;  ///< last: it ends before what it uses
};

}  // namespace ullage::ui
