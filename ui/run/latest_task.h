// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Work in the background of which only the newest counts.
///
/// One thread lives as long as the task, nicer than the window's. What is posted after a pause starts
/// at once; what streams in (typing, dragging) waits until the stream pauses, so that there is not a
/// run per letter. A run that starts stops the one before it and takes its place. If a stream never
/// pauses, a run starts anyway now and then, so that something dragged shows life. Every run has a
/// generation; what an older one hands over is dropped, so a late result never overwrites a newer
/// one. What is handed over is called on the thread that owns the task.

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>

#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>

namespace ullage::ui {

/// soon: at once after a pause, else when the stream of posts pauses; for edits, typing, dragging.
/// now: at once whatever came before; for undo, open, paste.
enum class Pace { soon, now };

class LatestTask : public QObject {
    Q_OBJECT

public:
    static constexpr int pause_ms = 150;  ///< posts closer than this are a stream
    static constexpr int longest_pause_ms = 300;  ///< if the posts never pause

    /// What a run is given.
    struct Turn {
        std::stop_token stop;
        /// Calls `action` on the owner's thread, unless the run is not the newest by then.
        std::function<void(std::function<void()> action)> deliver;
    };
    /// Called on the task's thread; must look at the stop token often.
    using Work = std::function<void(const Turn&)>;

    explicit LatestTask(QObject* parent = nullptr);
    /// Stops what runs and waits for it.
    ~LatestTask() override;

    void post(Work work, Pace pace);
    /// Drops what waits and what runs; nothing of it is delivered any more.
    void drop();
    /// Something newer than what runs waits for its pause.
    bool isWaiting() const { return pause_.isActive(); }

private:
    struct Job {
        Work work;
        std::uint64_t generation = 0;
        std::stop_source stop;
    };

    /// Handed over by a run, for the owner's thread.
    struct Delivery {
        std::uint64_t generation = 0;
        std::function<void()> action;
    };

    int msToWait(Pace pace) const;
    void begin();
    void stopCurrent();
    void take();
    void loop(const std::stop_token& ending);

    std::uint64_t generation_ = 0;  ///< of the newest run
    Work next_;
    std::stop_source current_{std::nostopstate};
    QTimer pause_;
    QElapsedTimer waiting_since_;
    QElapsedTimer last_post_;

    std::mutex mutex_;
    std::condition_variable_any wake_;
    std::optional<Job> mailbox_;
    std::deque<Delivery> delivered_;  ///< as many as calls of take() are under way
    std::jthread thread_;  ///< last: it ends before what it uses
};

}  // namespace ullage::ui
