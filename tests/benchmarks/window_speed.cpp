// SPDX-License-Identifier: GPL-3.0-or-later
// How long an edit takes to its first picture in the window, and to the full one.
//
//   window_speed SITE…
//
// Opens each site in a window without a display, edits the size of its first dataset by hand 30 times, each
// after the answer to the one before, and prints a row a site: milliseconds from the edit until the page is
// painted with a first answer (median and 95th percentile), until it is painted with the full one, and the
// longest time for which the window's thread did not come back to its events.
#include "core/site/site_json.h"
#include "core/units/kept_memory.h"
#include "core/units/quantity_text.h"
#include "tests/ui/window/loop_watch.h"
#include "tests/ui/window/settings_apart.h"
#include "ui/window/main_window.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QTest>
#include <QTimer>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace {

using namespace ullage;
using namespace ullage::ui;

constexpr int edits = 30;
constexpr int longest_wait_ms = 60'000;

/// Notes when the window has been painted with an answer.
class PaintClock : public QObject {
public:
    explicit PaintClock(MainWindow& window) {
        window.installEventFilter(this);
        QObject::connect(&window.runner(), &AnswerRunner::answered, this,
                         [this](const std::shared_ptr<const Answer>&, bool preview) {
                             (preview ? first_due_ : full_due_) = true;
                         });
    }
    void start() {
        first_due_ = full_due_ = false;
        first_ms = full_ms = std::numeric_limits<double>::quiet_NaN();
        clock_.start();
    }
    double first_ms = 0, full_ms = 0;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override {
        // The event paints what has changed; what is queued now comes right after it.
        if (event->type() == QEvent::UpdateRequest && (first_due_ || full_due_))
            QMetaObject::invokeMethod(this, [this] { note(); }, Qt::QueuedConnection);
        return QObject::eventFilter(watched, event);
    }

private:
    void note() {
        const double now = static_cast<double>(clock_.nsecsElapsed()) / 1e6;
        if (std::isnan(first_ms)) first_ms = now;
        if (full_due_ && std::isnan(full_ms)) full_ms = now;
        first_due_ = full_due_ = false;
    }

    QElapsedTimer clock_;
    bool first_due_ = false, full_due_ = false;
};

/// Handles events as the program does until `done`; QTest's own waiting would sleep ten milliseconds between them.
template <class Done>
bool wait_until(Done done) {
    QElapsedTimer since;
    since.start();
    QTimer beat;  // so that there is an event to look after
    beat.start(50);
    while (!done()) {
        if (since.elapsed() > longest_wait_ms) return false;
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
    }
    return true;
}

double quantile(std::vector<double> values, double share) {
    std::sort(values.begin(), values.end());
    const double last = static_cast<double>(values.size() - 1);
    return values[static_cast<std::size_t>(std::lround(share * last))];
}

void measure(const QString& path) {
    MainWindow window{Settings{}};
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
    window.show();
    window.openFile(path);
    PaintClock paint(window);
    const auto idle = [&] { return window.runner().state() == AnswerRunner::State::idle; };
    if (!window.document().isOpen() || !wait_until(idle)) {
        fmt::print("{}: not answered\n", path.toStdString());
        return;
    }
    std::vector<double> first, full;
    double longest_gap_ms = 0;
    for (int i = 0; i < edits; ++i) {
        QTest::qWait(400);  // as long as a person needs at least between two edits
        const std::string text = fmt::format("{} GB", 3000 + 7 * i);
        LoopWatch watch;
        paint.start();
        window.document().editSite(QStringLiteral("size"), [&](Site& site) {
            site.datasets.front().live = Entered<Bytes>{*parse_bytes(text), text};
        });
        if (!wait_until([&] { return !std::isnan(paint.full_ms) && idle(); })) break;
        longest_gap_ms = std::max(longest_gap_ms, watch.takeLongestMs());
        first.push_back(paint.first_ms);
        full.push_back(paint.full_ms);
    }
    if (first.size() < edits) {
        fmt::print("{}: an edit was not answered\n", path.toStdString());
        return;
    }
    fmt::print("{:<32} first {:5.0f} {:5.0f}   full {:6.0f} {:6.0f}   longest gap {:4.0f}\n",
               QFileInfo(path).fileName().toStdString(), quantile(first, 0.5), quantile(first, 0.95),
               quantile(full, 0.5), quantile(full, 0.95), longest_gap_ms);
}

}  // namespace

int main(int argc, char** argv) {
    ullage::keep_freed_memory();  // as the program
    const SettingsApart settings;
    QApplication application(argc, argv);
    fmt::print("milliseconds, 30 edits: median, 95th percentile\n");
    for (int i = 1; i < argc; ++i) measure(QString::fromLocal8Bit(argv[i]));
    return 0;
}
