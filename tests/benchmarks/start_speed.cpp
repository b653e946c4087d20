// SPDX-License-Identifier: GPL-3.0-or-later
// From the start of a process to its first painted window, without a display.
//
//   start_speed window SITE    the program's window with a site; says so once it is painted, and ends
//   start_speed answer SITE    … painted with the first answer
//
// start_speed all SITE [RUNS] runs these and an empty Qt Charts window (empty_chart, which lies beside it) in turn and
// prints medians and ratios of the time until each says that it is painted.
#include "core/units/kept_memory.h"
#include "tests/benchmarks/say_painted.h"
#include "tests/ui/window/settings_apart.h"
#include "ui/window/main_window.h"

#include <QApplication>
#include <QElapsedTimer>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fcntl.h>
#include <optional>
#include <spawn.h>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

using namespace ullage;
using namespace ullage::ui;

/// Says so and ends the program once the window has been painted and `ready`.
class EndWhenPainted : public QObject {
public:
    explicit EndWhenPainted(QWidget& window) { window.installEventFilter(this); }
    bool ready = true;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::UpdateRequest && ready)
            QMetaObject::invokeMethod(qApp, say_painted_and_quit, Qt::QueuedConnection);
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
    if (!window.document().isOpen()) {
        fmt::print(stderr, "start_speed: {} was not opened\n", site.toStdString());
        return 2;
    }
    window.show();
    return QApplication::exec();
}

struct Started {
    QString program;
    QStringList arguments;
    std::vector<double> ms;
};

/// Runs it, and gives the time until it says that it is painted, or nothing if it does not end well. A spawned process
/// costs the same whatever this one has in memory, a forked one does not.
std::optional<double> ms_to_painted(const Started& started) {
    std::vector<std::string> words = {started.program.toStdString()};
    for (const QString& word : started.arguments) words.push_back(word.toStdString());
    std::vector<char*> pointers;
    for (std::string& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    std::array<int, 2> ends{};
    if (pipe2(ends.data(), O_CLOEXEC) != 0) return {};
    const auto [from, to] = ends;
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, to, STDOUT_FILENO);
    QElapsedTimer clock;
    clock.start();
    pid_t child = 0;
    const bool spawned = posix_spawn(&child, pointers.front(), &actions, nullptr, pointers.data(), environ) == 0;
    posix_spawn_file_actions_destroy(&actions);
    close(to);
    char said = 0;
    const bool painted = spawned && read(from, &said, 1) == 1;
    const double ms = static_cast<double>(clock.nsecsElapsed()) / 1e6;
    close(from);
    int status = 1;
    if (!spawned || waitpid(child, &status, 0) != child || status != 0 || !painted) return {};
    return ms;
}

int compare(const QString& site, int runs) {
    const QString self = QCoreApplication::applicationFilePath();
    std::vector<Started> all = {{QCoreApplication::applicationDirPath() + QStringLiteral("/empty_chart"), {}, {}},
                                {self, {QStringLiteral("window"), site}, {}},
                                {self, {QStringLiteral("answer"), site}, {}}};
    for (int i = 0; i < runs; ++i)
        for (Started& started : all) {
            const auto ms = ms_to_painted(started);
            if (!ms) return 1;
            started.ms.push_back(*ms);
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
