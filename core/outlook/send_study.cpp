// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/send_study.h"

#include "core/outlook/box_parts.h"
#include "core/site/site_json.h"

namespace ullage {

std::optional<std::size_t> SendStudy::send_of(const std::string& name) const {
    for (std::size_t s = 0; s < site.sends.size(); ++s)
        if (site.sends[s].name == name) return s;
    return {};
}

tl::expected<SendStudy, ComputeError> study_sends(const Site& site, const Evidence& evidence,
                                                  const Settings& settings,
                                                  const Progress& progress) {
    const auto failed = [](Problems problems) {
        return tl::unexpected(ComputeError(std::move(problems)));
    };
    SendStudy study;
    study.site = site;
    if (settings.as_of) study.site.as_of = *settings.as_of;
    if (auto problems = validate(study.site); !problems.empty()) return failed(std::move(problems));
    study.zone = *TimeZone::find(study.site.time_zone);
    study.start = study.zone.instant_of(study.site.as_of);
    study.horizon_days = in_days(study.site.horizon.value);
    auto models = dataset_models(study.site, evidence, study.site.as_of);
    if (!models) return failed(models.error());
    study.models = *std::move(models);
    study.plan.threads = settings.threads;
    auto plans = plan_sends(study.context());
    if (!plans) return failed(plans.error());
    study.plans = *std::move(plans);

    study.plan.as_of = study.start;
    study.plan.days = grid_of(study.context());
    study.plan.seed = settings.seed;
    study.plan.paths = replay_sample_count(study.plans, study.horizon_days, settings.paths);
    study.plan.samples = study.plan.paths;
    auto paths = draw_paths(study.models, study.plan, progress, 0, 0.2);
    if (!paths) return tl::unexpected(ComputeError(Cancelled{}));
    study.paths = *std::move(paths);
    return study;
}

}  // namespace ullage
