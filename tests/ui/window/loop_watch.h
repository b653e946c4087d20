// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// How long the window's thread leaves its event loop alone: the longest gap between two beats of a
/// timer of one millisecond. A window whose gaps are short never feels stuck.

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>

#include <algorithm>

namespace ullage::ui {

class LoopWatch : public QObject {
public:
    LoopWatch() {
        beat_.setTimerType(Qt::PreciseTimer);
        QObject::connect(&beat_, &QTimer::timeout, this, [this] { note(); });
        beat_.start(1);
        since_.start();
    }
    /// Since the watch began or was asked for it last.
    double takeLongestMs() {
        note();
        const double longest = longest_ms_;
        longest_ms_ = 0;
        return longest;
    }

private:
    void note() {
        longest_ms_ = std::max(longest_ms_, static_cast<double>(since_.nsecsElapsed()) / 1e6);
        since_.restart();
    }

    QTimer beat_;
    QElapsedTimer since_;
    double longest_ms_ = 0;
};

}  // namespace ullage::ui
