// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/gauge/gauge_text.h"

#include "ui/theme/status.h"
#include "ui/theme/words.h"

#include <QLocale>

#include <algorithm>

namespace ullage {
namespace {

int within(const std::array<std::optional<double>, 20>& marks) {
    return static_cast<int>(
        std::count_if(marks.begin(), marks.end(), [](const auto& m) { return m.has_value(); }));
}

// "9 of 20 futures reach it within 5 years"; the marks are counted so that text and picture agree.
QString count_words(const std::array<std::optional<double>, 20>& marks, double chance,
                    const QString& horizon) {
    const int n = within(marks);
    if (n == 0)
        return chance > 0 ? GaugeText::tr("within %1 in fewer than 1 of 20 futures").arg(horizon)
                          : GaugeText::tr("not within %1 in any future").arg(horizon);
    return GaugeText::tr("within %1 in %2 of 20 futures").arg(horizon, QLocale().toString(n));
}

}  // namespace

QString ceiling_share(const BoxOutlook& box) {
    return Words::percent(box.usable_bytes > 0 ? box.ceiling_bytes / box.usable_bytes : 0, 3);
}

QString GaugeText::later(int count) { return tr("%1 later").arg(QLocale().toString(count)); }
QString GaugeText::marks_note() {
    return tr("Each mark: 1 of 20 equally likely futures.\nLine: from 1 in 10 to 9 in 10.");
}
QString GaugeText::ceiling_lane() { return tr("Ceiling"); }
QString GaugeText::full_lane() { return tr("Full"); }
QString GaugeText::lane_passed() { return tr("already passed"); }

GaugeText GaugeText::waiting(const QString& name) {
    GaugeText t;
    t.name = name;
    t.headline = tr("No answer yet");
    t.when = tr("The forecast appears here when it has been computed.");
    t.short_when = tr("waiting for the forecast");
    return t;
}

GaugeText GaugeText::of(const BoxOutlook& box, double horizon_days, Day as_of, Level level) {
    GaugeText t;
    t.name = QString::fromStdString(box.name);
    t.status = status_word(level);
    t.ceiling_passed = box.over_ceiling_now;
    t.full_passed = box.full_now;
    const QString horizon = Words::horizon(horizon_days);
    const QString share = ceiling_share(box);
    // Within two months a month's name would not tell the dates apart.
    const auto date_of = [as_of](double days) {
        const Day day = add_days(as_of, days);
        return days < 60 ? Words::full_date(day) : Words::month(day);
    };
    const DayQuantiles& ceiling = box.days_until_ceiling;
    const DayQuantiles& full = box.days_until_full;

    if (box.full_now) {
        t.headline = tr("Full now");
        t.when = tr("Nothing more fits; the %1 ceiling is passed too.").arg(share);
        t.short_when = tr("no room left");
    } else if (box.over_ceiling_now) {
        t.headline = tr("Over its ceiling now");
        t.when = tr("It holds more than %1 of its usable size.").arg(share);
        t.short_when = tr("over %1 now").arg(share);
    } else if (ceiling.p50) {
        t.headline = Words::sentence(Words::span(*ceiling.p50));
        t.when = tr("to the %1 ceiling, around %2").arg(share, date_of(*ceiling.p50));
        t.short_when = tr("around %1").arg(date_of(*ceiling.p50));
    } else if (box.shrinking) {
        t.headline = tr("Shrinking");
        t.when = tr("It holds less at the end of %1 than today; no sign of the %2 ceiling.")
                     .arg(horizon, share);
        t.short_when = tr("no ceiling in sight");
    } else {
        const bool never = box.chance_of_ceiling_within_horizon <= 0;
        t.headline = tr("Not within %1").arg(horizon);
        t.when = never ? tr("to the %1 ceiling, in any future").arg(share)
                       : tr("to the %1 ceiling, in most futures").arg(share);
        t.short_when = never ? tr("in any future") : tr("in most futures");
    }

    if (!box.over_ceiling_now && !box.full_now) {
        if (ceiling.p10) t.range << tr("1 in 10: before %1").arg(date_of(*ceiling.p10));
        if (ceiling.p90)
            t.range << tr("9 in 10: before %1").arg(date_of(*ceiling.p90));
        else if (ceiling.p10 || box.chance_of_ceiling_within_horizon > 0)
            t.range << Words::sentence(
                count_words(box.ceiling_marks, box.chance_of_ceiling_within_horizon, horizon));
    }

    if (!box.full_now) {
        if (full.p50)
            t.full = tr("Completely full: %1, around %2")
                         .arg(Words::span(*full.p50), date_of(*full.p50));
        else
            t.full =
                tr("Completely full: %1")
                    .arg(count_words(box.full_marks, box.chance_of_full_within_horizon, horizon));
    }
    if (box.order_by)
        t.order =
            *box.order_by < as_of
                ? tr("The last safe day to order was %1.").arg(Words::full_date(*box.order_by))
                : tr("Order more by %1.").arg(Words::full_date(*box.order_by));
    return t;
}

QString GaugeText::description() const {
    QStringList parts;
    const auto add = [&parts](const QString& part) {
        if (part.isEmpty()) return;
        const QChar last = part.back();
        parts << (last == u'.' || last == u'?' ? part : part + u'.');
    };
    add(status);
    add(when.isEmpty() || when.front().isUpper() ? headline : headline + u' ' + when);
    if (!when.isEmpty() && when.front().isUpper()) add(when);
    for (const QString& part : range) add(part);
    add(full);
    add(order);
    return parts.join(u' ');
}

}  // namespace ullage
