// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/buy/buy_tables.h"

#include "ui/buy/buy_text.h"
#include "ui/charts/fill_table.h"
#include "ui/theme/words.h"

#include <algorithm>

namespace ullage {
namespace {

using Cell = NumberTable::Cell;

}  // namespace

NumberTable::Content BuyTables::offers(const Outlook& outlook, const std::string& box,
                                       Prefixes prefixes) {
    const auto all = offers_for(outlook, box);
    double top = 0;
    for (const OfferOutlook* o : all) top = std::max(top, o->usable_bytes);
    const ByteUnit unit = byte_unit(top, prefixes);
    const QString currency = QString::fromStdString(outlook.currency);
    const auto money = [&](const QString& what) {
        return currency.isEmpty() ? what : tr("%1 (%2)", "what, unit").arg(what, currency);
    };
    NumberTable::Content content;
    content.header = {tr("Offer"),
                      tr("Stands"),
                      tr("Lasts, in 100 futures"),
                      tr("Days until its ceiling, 1 in 10"),
                      tr("… middle"),
                      tr("… 9 in 10"),
                      money(tr("Cost in all")),
                      money(tr("Price")),
                      money(tr("Energy")),
                      money(tr("Replacement")),
                      money(tr("For a usable TiB in a year")),
                      tr("Usable (%1)").arg(unit.name),
                      tr("Runs from"),
                      tr("Rebuilding a drive (h)"),
                      tr("Another failure meanwhile (%)")};
    const auto days = [](const std::optional<double>& x) {
        return x ? Cell::number(*x, 1, 4) : Cell::words(tr("later"));
    };
    for (const OfferOutlook* o : all) {
        const QDate runs = Words::date(o->running_from);
        content.rows.push_back({Cell::words(QString::fromStdString(o->name)),
                                Cell::words(standing_word(standing_of(*o))),
                                Cell::number(100 * o->chance_of_lasting, 1),
                                days(o->days_until_ceiling.p10),
                                days(o->days_until_ceiling.p50),
                                days(o->days_until_ceiling.p90),
                                Cell::number(o->cost_total, 1, 6),
                                Cell::number(o->price, 1, 6),
                                Cell::number(o->energy_cost, 1, 6),
                                Cell::number(o->replacement_cost, 1, 6),
                                Cell::number(o->cost_per_usable_tib_year, 1),
                                Cell::number(o->usable_bytes, unit.bytes),
                                {Words::full_date(runs), runs, runs.toString(Qt::ISODate)},
                                o->rebuild ? Cell::number(o->rebuild->hours, 1) : Cell::words({}),
                                o->rebuild ? Cell::number(100 * o->rebuild->chance_of_another, 1, 2)
                                           : Cell::words({})});
    }
    return content;
}

NumberTable::Content BuyTables::space(const std::vector<CapacityStep>& steps, double ceiling) {
    NumberTable::Content content;
    content.header = {tr("Step"), tr("Takes (TB)"), tr("Takes (TiB)"), tr("Leaves (TB)"),
                      tr("Leaves (TiB)")};
    constexpr double tb = 1e12, tib = 1099511627776.0;  // 2^40
    for (const CapacityStep& step : steps)
        content.rows.push_back(
            {Cell::words(BuyText::stepName(step.what, ceiling)),
             Cell::number(step.taken_bytes, tb, 4), Cell::number(step.taken_bytes, tib, 4),
             Cell::number(step.left_bytes, tb, 4), Cell::number(step.left_bytes, tib, 4)});
    return content;
}

NumberTable::Content BuyTables::blocks(const std::vector<BlockCost>& costs, Prefixes prefixes) {
    double top = 0;
    for (const BlockCost& cost : costs) top = std::max(top, cost.used_bytes);
    const ByteUnit unit = byte_unit(top, prefixes);
    NumberTable::Content content;
    content.header = {tr("Dataset"),
                      tr("Block size (KiB)"),
                      tr("A stored byte takes"),
                      tr("Taken at the end (%1)").arg(unit.name),
                      tr("Better block size (KiB)"),
                      tr("A stored byte would take")};
    constexpr double kib = 1024;
    for (const BlockCost& cost : costs)
        content.rows.push_back(
            {Cell::words(QString::fromStdString(cost.dataset)),
             Cell::number(cost.block_bytes, kib, 4), Cell::number(cost.charge, 1, 3),
             Cell::number(cost.used_bytes, unit.bytes),
             cost.better_block_bytes ? Cell::number(*cost.better_block_bytes, kib, 4)
                                     : Cell::words({}),
             cost.better_block_bytes ? Cell::number(cost.better_charge, 1, 3) : Cell::words({})});
    return content;
}

}  // namespace ullage
