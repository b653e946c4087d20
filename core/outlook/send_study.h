// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A site's sends made ready for questions beyond the forecast: models, plans and the paths to
/// replay, the same paths as the forecast's first ones.

#include "core/outlook/send_replay.h"

#include <tl/expected.hpp>

namespace ullage {

struct SendStudy {
    Site site;  ///< with the settings' as_of
    TimeZone zone;
    Instant start{};
    double horizon_days = 0;
    std::vector<DatasetModel> models;
    std::vector<PlannedSend> plans;
    PathsPlan plan;
    Paths paths;

    /// Refers to this study.
    SendContext context() const { return {site, zone, start, horizon_days, models, plan.threads}; }
    /// Index of the send of that name.
    std::optional<std::size_t> send_of(const std::string& name) const;
};

/// Problems as `compute`.
tl::expected<SendStudy, ComputeError> study_sends(const Site& site, const Evidence& evidence,
                                                  const Settings& settings,
                                                  const Progress& progress);

}  // namespace ullage
