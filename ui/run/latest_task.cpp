// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/run/latest_task.h"

#include <QMetaObject>

#include <algorithm>
#include <sys/resource.h>
#include <unistd.h>
#include <utility>

namespace ullage::ui {

namespace {

constexpr int nicer = 5, nicest = 19;

/// The window goes first where both want a core: of this thread, and of the threads that it makes, which are nice too.
void give_way() {
    const auto self = static_cast<id_t>(gettid());
    setpriority(PRIO_PROCESS, self, std::min(getpriority(PRIO_PROCESS, self) + nicer, nicest));
}

}  // namespace

LatestTask::LatestTask(QObject* parent) : QObject(parent) {
    pause_.setSingleShot(true);
    connect(&pause_, &QTimer::timeout, this, &LatestTask::begin);
    thread_ = std::jthread([this](const std::stop_token& ending) { loop(ending); });
}

LatestTask::~LatestTask() {
    pause_.stop();
    stopCurrent();
    thread_.request_stop();
    wake_.notify_all();
    thread_.join();
}

void LatestTask::post(Work work, Pace pace) {
    next_ = std::move(work);
    if (!pause_.isActive()) waiting_since_.start();
    const int wait_ms = msToWait(pace);
    last_post_.start();
    pause_.start(wait_ms);
}

int LatestTask::msToWait(Pace pace) const {
    if (pace == Pace::now) return 0;
    // Posts of one event, such as two edits of one click, start together.
    if (pause_.isActive() && pause_.interval() == 0) return 0;
    const bool is_stream = last_post_.isValid() && last_post_.elapsed() < pause_ms;
    if (!is_stream) return 0;
    return static_cast<int>(
        std::clamp<qint64>(longest_pause_ms - waiting_since_.elapsed(), 0, pause_ms));
}

void LatestTask::drop() {
    ++generation_;
    next_ = {};
    pause_.stop();
    stopCurrent();
}

/// Stops the job that runs and takes back the one that waits.
void LatestTask::stopCurrent() {
    const std::lock_guard lock(mutex_);
    mailbox_.reset();
    current_.request_stop();
}

void LatestTask::begin() {
    if (!next_) return;
    ++generation_;
    stopCurrent();
    {
        const std::lock_guard lock(mutex_);
        current_ = std::stop_source();
        mailbox_ = Job{std::exchange(next_, {}), generation_, current_};
    }
    wake_.notify_one();
}

void LatestTask::loop(const std::stop_token& ending) {
    give_way();
    for (;;) {
        Job job;
        {
            std::unique_lock lock(mutex_);
            if (!wake_.wait(lock, ending, [this] { return mailbox_.has_value(); })) return;
            job = std::move(*mailbox_);
            mailbox_.reset();
        }
        Turn turn;
        turn.stop = job.stop.get_token();
        turn.deliver = [this, generation = job.generation](std::function<void()> action) {
            {
                const std::lock_guard lock(mutex_);
                delivered_.push_back({generation, std::move(action)});
            }
            QMetaObject::invokeMethod(this, &LatestTask::take, Qt::QueuedConnection);
        };
        job.work(turn);
    }
}

void LatestTask::take() {
    Delivery next;
    {
        const std::lock_guard lock(mutex_);
        next = std::move(delivered_.front());
        delivered_.pop_front();
    }
    if (next.generation == generation_) next.action();
}

}  // namespace ullage::ui
