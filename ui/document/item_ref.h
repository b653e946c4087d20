// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// An item of a site, by kind and place: the outline, the forms and the findings all name items so.
/// As text it is the JSON pointer of the item in the site file ("/boxes/1"; "" is the site itself).

#include "core/site/site.h"

#include <QString>

#include <array>
#include <optional>

namespace ullage::ui {

enum class ItemKind { site, dataset, box, link, send, offer };

/// The kinds that a site holds several of, in the order of the outline.
inline constexpr std::array<ItemKind, 5> listed_kinds{
    ItemKind::dataset, ItemKind::box, ItemKind::link, ItemKind::send, ItemKind::offer};

struct ItemRef {
    ItemKind kind = ItemKind::site;
    int index = 0;  ///< from 0; 0 for the site
    bool operator==(const ItemRef&) const = default;
};

QString pointerOf(ItemRef item);
/// The item that a pointer lies in ("/boxes/1/pool/width" → box 1); empty if it names none.
std::optional<ItemRef> itemAt(const QString& pointer);

/// How many items of a kind the site holds; 1 for the site itself.
int countOf(const Site& site, ItemKind kind);
/// The item's name as the user gave it; the site's own may be empty. Empty if there is no such
/// item.
QString nameOf(const Site& site, ItemRef item);
bool exists(const Site& site, ItemRef item);

QString kindName(ItemKind kind);      ///< "dataset", for sentences
QString sectionTitle(ItemKind kind);  ///< "Datasets", for headings

}  // namespace ullage::ui
