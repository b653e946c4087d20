// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Edits of a site that touch more than one field: add, duplicate, rename, remove an item.
/// Plain functions on a site value; the references between items stay whole.

#include "ui/document/item_ref.h"

#include <QStringList>

namespace ullage::ui {

/// A name that no item of the kind has yet: "box", "box 2", "box 3" …
QString freeName(const Site& site, ItemKind kind, const QString& wish);

/// What is missing before an item of the kind can be added, as a sentence; empty if nothing is. (A
/// send needs a dataset, two boxes and a link; an offer a box.)
QString missingFor(const Site& site, ItemKind kind);

/// Adds an item with working initial values at the end of its section. Call only if `missingFor` is
/// empty.
ItemRef addItem(Site& site, ItemKind kind);

/// Adds a dataset that a listing is to measure (to be filled in: turnover.listing), with a month of daily snapshots,
/// in the site's first box.
ItemRef addMeasuredDataset(Site& site, const QString& name);

/// A copy with a name of its own, right after the original.
ItemRef duplicateItem(Site& site, ItemRef item);

/// Moves an item `by` places in its section, as far as that goes. Returns where it is then.
ItemRef moveItem(Site& site, ItemRef item, int by);

/// Gives an item a new name, everywhere it is named. Returns an empty text, or why it cannot be:
/// the name is empty, or another item of the kind has it (then nothing is changed).
QString renameItem(Site& site, ItemRef item, const QString& name);

/// What goes with an item when it is removed, one phrase each ("the send nightly goes too",
/// "imaging will have no home"). Empty: nothing depends on it.
QStringList consequencesOfRemoval(const Site& site, ItemRef item);

/// Removes an item and what cannot be without it, as `consequencesOfRemoval` says.
void removeItem(Site& site, ItemRef item);

}  // namespace ullage::ui
