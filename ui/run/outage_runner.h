// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Outage drills in the background: the newest question wins, the window never waits.

#include "core/outlook/outage_drill.h"
#include "ui/run/latest_task.h"

#include <QObject>

#include <functional>
#include <memory>

namespace ullage::ui {

class OutageRunner : public QObject {
    Q_OBJECT

public:
    using Result = tl::expected<OutageDrill, ComputeError>;
    /// Called on the runner's thread; must look at the progress' stop token often.
    using Drill = std::function<Result(const Site&, const Evidence&, const Settings&,
                                       const OutageQuestion&, const Progress&)>;

    explicit OutageRunner(Drill drill = outage_drill, QObject* parent = nullptr);

    void ask(std::shared_ptr<const Site> site, std::shared_ptr<const Evidence> evidence,
             const Settings& settings, const OutageQuestion& question, Pace pace = Pace::soon);
    /// Gives up what was asked.
    void cancel() { task_.drop(); }

signals:
    /// A newer question may be waiting for its pause already: the drill says what it is of.
    void drilled(std::shared_ptr<const ullage::OutageDrill> drill);
    void failed(const ullage::Problems& problems);

private:
    Drill drill_;
    LatestTask task_;  ///< last: it ends before what it uses
};

}  // namespace ullage::ui
