// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/run/outage_runner.h"

#include <exception>

namespace ullage::ui {

OutageRunner::OutageRunner(Drill drill, QObject* parent)
    : QObject(parent), drill_(std::move(drill)) {}

void OutageRunner::ask(std::shared_ptr<const Site> site, std::shared_ptr<const Evidence> evidence,
                       const Settings& settings, const OutageQuestion& question, Pace pace) {
    task_.post(
        [this, site = std::move(site), evidence = std::move(evidence), settings,
         question](const LatestTask::Turn& turn) {
            Result result = tl::make_unexpected(ComputeError(Cancelled{}));
            try {
                result = drill_(*site, *evidence, settings, question, {turn.stop, {}});
            } catch (const std::exception& fault) {
                result = tl::make_unexpected(ComputeError(Problems{
                    {"", tr("The calculation broke off: %1").arg(fault.what()).toStdString()}}));
            }
            if (result) {
                turn.deliver([this, drill = std::make_shared<const OutageDrill>(
                                        std::move(*result))] { emit drilled(drill); });
            } else if (const auto* problems = std::get_if<Problems>(&result.error())) {
                turn.deliver([this, problems = *problems] {
                    // A newer question waits for its pause: it may do better.
                    if (!task_.isWaiting()) emit failed(problems);
                });
            }
        },
        pace);
}

}  // namespace ullage::ui
