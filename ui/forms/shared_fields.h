// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Fields that several forms have: a ladder, a pool or usable size.

#include "ui/forms/item_form.h"

namespace ullage::ui {

/// Columns, cells and edits of a ladder's rungs.
QList<TableField::Column> ladderColumns();
QStringList rungCells(const Rung& rung);
QString writeRungCell(Rung& rung, int column, const QString& text);
/// The next longer step of the calendar after the last rung.
Rung freshRung(const std::vector<Rung>& ladder);

QList<Choice> redundancyChoices();
/// What a box starts with when its size is to come from its drives.
Pool freshPool();

/// Columns, cells and edits of a pool's further groups.
QList<TableField::Column> groupColumns();
QStringList groupCells(const DriveGroups& groups);
QString writeGroupCell(DriveGroups& groups, int column, const QString& text);
/// As the last of the further groups, else as the pool's first ones.
DriveGroups freshGroups(const Pool& pool);

/// Groups in one line: "2 x 6 x 16 TB, parity-2": groups, drives in each, drive, redundancy.
QString groupsText(const DriveGroups& groups);
/// Reads such a line; the number of groups may be left out for one, the redundancy for none.
/// Returns why it cannot be read, or an empty text.
QString readGroups(const QString& text, DriveGroups& groups);

/// Columns, cells and edits of a box's planned changes.
QList<TableField::Column> changeColumns();
QStringList changeCells(const BoxChange& change);
QString writeChangeCell(BoxChange& change, const Box& box, int column, const QString& text);
/// A change of the kind that the box can have, a year after the last one or after `as_of`.
BoxChange freshChange(const Box& box, Day as_of);

/// A form on something with `pool` and `usable`: a box, an offer.
template <class Item>
class CapacityForm : public ItemForm<Item> {
public:
    using ItemForm<Item>::ItemForm;

protected:
    /// `none` is the text for "neither"; empty: one of the two is needed.
    void addCapacity(const QString& none) {
        const QString from_drives = QStringLiteral("drives"), from_size = QStringLiteral("size");
        this->choice(
            Form::tr("Size from"), QStringLiteral("/pool"),
            [=] {
                QList<Choice> ways{{from_drives, Form::tr("its drives")},
                                   {from_size, Form::tr("a usable size")}};
                if (!none.isEmpty()) ways.append({QString(), none});
                return ways;
            },
            [=](const Item& it) {
                return it.pool ? from_drives : it.usable ? from_size : QString();
            },
            [=](Item& it, const QString& way) {
                it.pool.reset();
                it.usable.reset();
                if (way == from_drives) it.pool = freshPool();
                if (way == from_size) it.usable = Entered<Bytes>{decimal_tb(10), "10 TB"};
            });
        const auto has_pool = [this] { return this->now().pool.has_value(); };
        this->quantity(Form::tr("Usable"), QStringLiteral("/usable"), &Item::usable)
            ->setHint(
                Form::tr("What is left for data after redundancy, as the box itself says it."))
            ->setShownWhen([this] { return this->now().usable.has_value(); });
        poolPart<Bytes>(Form::tr("Drive"), QStringLiteral("/pool/drive"), &Pool::drive)
            ->setHint(Form::tr("The size on the drive's label."))
            ->setShownWhen(has_pool);
        poolNumber(Form::tr("Drives in a group"), QStringLiteral("/pool/width"), &Pool::width)
            ->setShownWhen(has_pool);
        poolNumber(Form::tr("Groups"), QStringLiteral("/pool/groups"), &Pool::groups)
            ->setShownWhen(has_pool);
        this->choice(
                Form::tr("Redundancy"), QStringLiteral("/pool/redundancy"),
                [] { return redundancyChoices(); },
                [](const Item& it) {
                    return it.pool ? QString::fromStdString(to_text(it.pool->redundancy))
                                   : QString();
                },
                [](Item& it, const QString& chosen) {
                    const auto read = parse_redundancy(chosen.toStdString());
                    if (!it.pool || !read) return;
                    it.pool->redundancy = *read;
                    if (read->kind == Redundancy::Kind::mirror) it.pool->width = read->n;
                })
            ->setShownWhen(has_pool);
        poolNumber(Form::tr("Spare drives"), QStringLiteral("/pool/spares"), &Pool::spares)
            ->setShownWhen(has_pool);
        this->template table<DriveGroups>(
                Form::tr("Further groups"), QStringLiteral("/pool/further"), groupColumns(),
                [this](Item& it) -> std::vector<DriveGroups>& {
                    if (it.pool) return it.pool->further;
                    no_groups_.clear();
                    return no_groups_;
                },
                groupCells, writeGroupCell,
                [this](const std::vector<DriveGroups>&) { return freshGroups(*this->now().pool); },
                false)
            ->setEmptyText(Form::tr("None: all groups are alike."))
            ->setShownWhen(has_pool);
        poolPart<Bytes>(Form::tr("Drive sector"), QStringLiteral("/pool/sector"), &Pool::sector)
            ->setHint(
                Form::tr("The smallest piece a drive writes: 4 KiB on nearly all of today's."))
            ->setShownWhen(has_pool);
    }

private:
    std::vector<DriveGroups> no_groups_;  ///< of an item without a pool

    template <class T>
    Field* poolPart(const QString& label, const QString& key, Entered<T> Pool::*member) {
        return this->template quantity<T>(
            label, key,
            [member](const Item& it) {
                return it.pool ? std::optional((*it.pool).*member) : std::nullopt;
            },
            [member](Item& it, const std::optional<Entered<T>>& typed) {
                if (it.pool && typed) (*it.pool).*member = *typed;
            },
            false);
    }
    Field* poolNumber(const QString& label, const QString& key, int Pool::*member) {
        return this->template value<int>(
            label, key, wholeNumber(),
            [member](const Item& it) { return it.pool ? (*it.pool).*member : 0; },
            [member](Item& it, int typed) {
                if (it.pool) (*it.pool).*member = typed;
            });
    }
};

}  // namespace ullage::ui
