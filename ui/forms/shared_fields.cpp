// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/shared_fields.h"

#include <algorithm>

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

QList<TableField::Column> groupColumns() {
    return {{Form::tr("Groups"), 3, {}, Form::tr("how many are alike")},
            {Form::tr("Drives"), 3, {}, Form::tr("in each group")},
            {Form::tr("Redundancy"), 5, redundancyChoices(), {}},
            {Form::tr("Drive"), 4, {}, Form::tr("the size on its label, such as 16 TB")}};
}

QStringList groupCells(const DriveGroups& groups) {
    return {QString::number(groups.groups), QString::number(groups.width),
            QString::fromStdString(to_text(groups.redundancy)), textOf(groups.drive)};
}

QString writeGroupCell(DriveGroups& groups, int column, const QString& text) {
    if (column == 3) return readEntered(text, groups.drive);
    if (column == 2) {
        const auto read = parse_redundancy(text.toStdString());
        if (!read) return QString::fromStdString(read.error());
        groups.redundancy = *read;
        if (read->kind == Redundancy::Kind::mirror) groups.width = read->n;
        return {};
    }
    const auto count = wholeNumber().read(text);
    if (!count) return QString::fromStdString(count.error());
    (column == 0 ? groups.groups : groups.width) = *count;
    return {};
}

DriveGroups freshGroups(const Pool& pool) {
    if (!pool.further.empty()) return pool.further.back();
    DriveGroups groups;
    groups.groups = 1;
    groups.width = pool.width;
    groups.redundancy = pool.redundancy;
    groups.drive = pool.drive;
    return groups;
}

QString groupsText(const DriveGroups& groups) {
    return QStringLiteral("%1 x %2 x %3, %4")
        .arg(groups.groups)
        .arg(groups.width)
        .arg(textOf(groups.drive), QString::fromStdString(to_text(groups.redundancy)));
}

QString readGroups(const QString& text, DriveGroups& groups) {
    const QString refusal =
        Form::tr("“%1” is not groups, such as 1 x 6 x 16 TB, parity-2.").arg(text);
    QString shape = text.section(u',', 0, 0);
    const QString redundancy = text.section(u',', 1).trimmed();
    const QStringList parts = shape.replace(QChar(0x00D7), u'x').split(u'x');
    if (parts.size() < 2 || parts.size() > 3) return refusal;
    DriveGroups read = groups;
    read.groups = 1;
    read.redundancy = {};
    if (parts.size() == 3) {
        const auto count = wholeNumber().read(parts.first().trimmed());
        if (!count) return refusal;
        read.groups = *count;
    }
    const auto width = wholeNumber().read(parts[parts.size() - 2].trimmed());
    if (!width) return refusal;
    read.width = *width;
    if (const QString why = readEntered(parts.last(), read.drive); !why.isEmpty()) return why;
    if (!redundancy.isEmpty()) {
        const auto known = parse_redundancy(redundancy.toStdString());
        if (!known) return QString::fromStdString(known.error());
        read.redundancy = *known;
    }
    groups = read;
    return {};
}

QList<TableField::Column> changeColumns() {
    const auto kind = [](BoxChange::Kind of, const QString& shown) {
        return Choice{QString::number(static_cast<int>(of)), shown};
    };
    using Kind = BoxChange::Kind;
    return {{Form::tr("On"), 5, {}, Form::tr("A date, such as 2027-06-01")},
            {Form::tr("What"),
             4,
             {kind(Kind::add_groups, Form::tr("adds")), kind(Kind::swap_drives, Form::tr("swaps")),
              kind(Kind::widen, Form::tr("widens")), kind(Kind::resize, Form::tr("resizes"))},
             Form::tr("adds groups, swaps drives for larger ones, widens parity groups, or "
                      "resizes what is usable")},
            {Form::tr("To"),
             6,
             {},
             Form::tr("Groups such as 1 x 6 x 16 TB, parity-2; the new drive such as 20 TB; the "
                      "number of drives in each wider group; the new usable size")},
            {Form::tr("Set"),
             2,
             {},
             Form::tr("Of larger drives and wider groups: 1 is the pool's first groups, 2 the "
                      "first further ones, then those added, by date")},
            {Form::tr("Note"), 4, {}, {}}};
}

QStringList changeCells(const BoxChange& change) {
    QString to, set;
    switch (change.kind) {
        case BoxChange::Kind::add_groups:
            to = groupsText(change.added);
            break;
        case BoxChange::Kind::swap_drives:
            to = textOf(change.drive);
            set = QString::number(change.set);
            break;
        case BoxChange::Kind::widen:
            to = QString::number(change.width);
            set = QString::number(change.set);
            break;
        case BoxChange::Kind::resize:
            to = textOf(change.usable);
            break;
    }
    return {QString::fromStdString(format_date(change.on)),
            QString::number(static_cast<int>(change.kind)), to, set,
            QString::fromStdString(change.note)};
}

namespace {

/// Gives a change of this kind what it needs, from the box as it is.
void startChange(BoxChange& change, const Box& box) {
    const Pool pool = box.pool.value_or(freshPool());
    const auto twice = [](Bytes size) {
        return Entered<Bytes>{Bytes{2 * size.value}, exact_bytes(Bytes{2 * size.value})};
    };
    change.added = {};
    change.drive = {};
    change.usable = {};
    change.width = 0;
    change.set = 1;
    switch (change.kind) {
        case BoxChange::Kind::add_groups:
            change.added = freshGroups(pool);
            break;
        case BoxChange::Kind::swap_drives:
            change.drive = twice(pool.drive.value);
            break;
        case BoxChange::Kind::widen:
            change.width = pool.width + 1;
            break;
        case BoxChange::Kind::resize:
            change.usable = twice(box.usable ? box.usable->value : decimal_tb(10));
            break;
    }
}

}  // namespace

QString writeChangeCell(BoxChange& change, const Box& box, int column, const QString& text) {
    const auto whole = [&](int& into) {
        const auto count = wholeNumber().read(text);
        if (!count) return QString::fromStdString(count.error());
        into = *count;
        return QString();
    };
    switch (column) {
        case 0: {
            const auto on = date().read(text);
            if (!on) return QString::fromStdString(on.error());
            change.on = *on;
            return {};
        }
        case 1:
            change.kind = static_cast<BoxChange::Kind>(text.toInt());
            startChange(change, box);
            return {};
        case 2:
            switch (change.kind) {
                case BoxChange::Kind::add_groups:
                    return readGroups(text, change.added);
                case BoxChange::Kind::swap_drives:
                    return readEntered(text, change.drive);
                case BoxChange::Kind::widen:
                    return whole(change.width);
                case BoxChange::Kind::resize:
                    break;
            }
            return readEntered(text, change.usable);
        case 3:
            if (change.kind == BoxChange::Kind::add_groups ||
                change.kind == BoxChange::Kind::resize)
                return Form::tr("Only larger drives and wider groups are of a set.");
            return whole(change.set);
        default:
            change.note = text.toStdString();
            return {};
    }
}

BoxChange freshChange(const Box& box, Day as_of) {
    BoxChange change;
    Day last = as_of;
    for (const BoxChange& other : box.changes) last = std::max(last, other.on);
    change.on = add_days(last, days_per_year);
    change.kind = box.pool ? BoxChange::Kind::add_groups : BoxChange::Kind::resize;
    startChange(change, box);
    return change;
}

}  // namespace ullage::ui
