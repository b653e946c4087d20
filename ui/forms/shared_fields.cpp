// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/shared_fields.h"

namespace ullage::ui {

QList<TableField::Column> ladderColumns() {
    return {{Form::tr("A snapshot every"), 1, {}, Form::tr("such as 1 h, 1 d, 1 w, 1 mo")},
            {Form::tr("Kept"), 1, {}, Form::tr("a count, such as 24, or a time, such as 26 w")}};
}

QStringList rungCells(const Rung& rung) {
    QString kept;
    if (rung.count) kept = QString::number(*rung.count);
    if (rung.keep_for) kept = textOf(*rung.keep_for);
    return {textOf(rung.every), kept};
}

QString writeRungCell(Rung& rung, int column, const QString& text) {
    if (column == 0) return readEntered(text, rung.every);
    const auto count = wholeNumber().read(text);
    if (count) {
        rung.count = *count;
        rung.keep_for.reset();
        return {};
    }
    Entered<Duration> keep_for;
    const QString refusal = readEntered(text, keep_for);
    if (!refusal.isEmpty())
        return Form::tr("“%1” is neither a count, such as 24, nor a time, such as 26 w.").arg(text);
    rung.keep_for = keep_for;
    rung.count.reset();
    return {};
}

Rung freshRung(const std::vector<Rung>& ladder) {
    using Unit = Period::Unit;
    const auto rung = [](Unit unit, int count) {
        const Period every{1, unit};
        return Rung{Entered<Period>{every, to_text(every)}, count, std::nullopt, {}};
    };
    if (ladder.empty()) return rung(Unit::day, 30);
    switch (ladder.back().every.value.unit) {
        case Unit::minute:
            return rung(Unit::hour, 24);
        case Unit::hour:
            return rung(Unit::day, 30);
        case Unit::day:
            return rung(Unit::week, 8);
        case Unit::week:
            return rung(Unit::month, 12);
        case Unit::month:
        case Unit::year:
            break;
    }
    return rung(Unit::year, 3);
}

QList<Choice> redundancyChoices() {
    QList<Choice> choices{{QStringLiteral("none"), Form::tr("none")}};
    for (int n = 2; n <= 4; ++n)
        choices.append({QString::fromStdString(to_text(Redundancy{Redundancy::Kind::mirror, n})),
                        Form::tr("mirror of %1").arg(n)});
    for (int n = 1; n <= 3; ++n)
        choices.append({QString::fromStdString(to_text(Redundancy{Redundancy::Kind::parity, n})),
                        Form::tr("parity of %1").arg(n)});
    return choices;
}

Pool freshPool() {
    Pool pool;
    pool.groups = 1;
    pool.width = 6;
    pool.redundancy = {Redundancy::Kind::parity, 2};
    pool.drive = Entered<Bytes>{decimal_tb(12), "12 TB"};
    return pool;
}

}  // namespace ullage::ui
