// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the columns of a listing were said to be, remembered for the next one with the same header row, or, without
/// one, with as many columns.

#include "core/measure/listing_columns.h"

#include <QStringList>

#include <optional>

namespace ullage::ui {

class ColumnMemory {
public:
    /// The roles of columns like these when they were last imported; empty: there was none.
    static std::optional<QStringList> recall(const ListingPreview& preview);
    /// Remembers them; of the oldest those beyond the newest 30 are forgotten.
    static void keep(const ListingPreview& preview, const QStringList& roles);
};

}  // namespace ullage::ui
