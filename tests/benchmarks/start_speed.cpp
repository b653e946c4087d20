// SPDX-License-Identifier: GPL-3.0-or-later
// From the start of a process to its first painted window, without a display: what a shell's `time` says of
//
//   start_speed window SITE    the program's window with a site, painted first
//   start_speed answer SITE    … painted with the first answer
//
// start_speed all SITE [RUNS] runs these and an empty Qt Charts window (empty_chart, which lies beside it) in turn and
// prints medians and ratios.
#include "core/units/kept_memory.h"
#include "tests/ui/window/settings_apart.h"
#include "ui/window/main_window.h"

#include <QApplication>
#include <QElapsedTimer>

#include <fmt/format.h>

#include <algorithm>
#include <spawn.h>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

using namespace ullage;
using namespace ullage::ui;

/// Ends the program once the window has been painted and `ready`.
class EndWhenPainted : public QObject {
public:
    explicit EndWhenPainted(QWidget& window) { window.installEventFilter(this); }
    bool ready = true;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::UpdateRequest && ready)
            QMetaObject::invokeMethod(qApp, &QCoreApplication::quit, Qt::QueuedConnection);
        return QObject::eventFilter(watched, event);
    }
};

int paintWindow(const QString& site, bool with_answer) {
    MainWindow window{Settings{}};
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
    EndWhenPainted end(window);
    end.ready = !with_answer;
    QObject::connect(&window.runner(), &AnswerRunner::answered, &end, [&] { end.ready = true; });
    window.openFile(site);
    window.show();
    return QApplication::exec();
}

struct Started {
    QString program;
    QStringList arguments;
    std::vector<double> ms;
};

/// Runs it; a spawned process costs the same whatever this one has in memory, a forked one does not.
bool ends_well(const Started& started) {
    std::vector<std::string> words = {started.program.toStdString()};
    for (const QString& word : started.arguments) words.push_back(word.toStdString());
    std::vector<char*> pointers;
    for (std::string& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    pid_t child = 0;
    int status = 1;
    return posix_spawn(&child, pointers.front(), nullptr, nullptr, pointers.data(), environ) == 0 &&
           waitpid(child, &status, 0) == child && status == 0;
}

int compare(const QString& site, int runs) {
    const QString self = QCoreApplication::applicationFilePath();
    std::vector<Started> all = {{QCoreApplication::applicationDirPath() + QStringLiteral("/empty_chart"), {}, {}},
                                {self, {QStringLiteral("window"), site}, {}},
                                {self, {QStringLiteral("answer"), site}, {}}};
    for (int i = 0; i < runs; ++i)
        for (Started& started : all) {
            QElapsedTimer clock;
            clock.start();
            if (!ends_well(started)) return 1;
            started.ms.push_back(static_cast<double>(clock.nsecsElapsed()) / 1e6);
        }
    const auto median = [](std::vector<double> values) {
        std::sort(values.begin(), values.end());
        return values[values.size() / 2];
    };
    for (const Started& started : all)
        fmt::print("{:<12} {:5.0f} ms, {:.2f} times the empty chart\n",
                   started.arguments.value(0, QStringLiteral("empty chart")).toStdString(), median(started.ms),
                   median(started.ms) / median(all.front().ms));
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    ullage::keep_freed_memory();  // as the program
    const SettingsApart settings;
    QApplication application(argc, argv);
    const QStringList arguments = QApplication::arguments();
    const QString what = arguments.value(1), site = arguments.value(2);
    if (what == QLatin1String("window") || what == QLatin1String("answer")) return paintWindow(site, what == QLatin1String("answer"));
    if (what == QLatin1String("all")) return compare(site, std::max(1, arguments.value(3, QStringLiteral("15")).toInt()));
    fmt::print(stderr, "start_speed window SITE | answer SITE | all SITE [RUNS]\n");
    return 2;
}
