// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The columns of a snapshot listing: what roles there are, and which column has which as far as its first rows
/// tell. Guesses are for a person to confirm; reading a listing itself guesses nothing.

#include "core/measure/delimited.h"

namespace ullage {

/// snapshot, taken, unique, live, written (all needed), logical, compression; with the names accepted for each.
const std::vector<ColumnRole>& listing_roles();

/// Bytes: a plain number, a number with a unit, or with one letter (K, M, G, T, P: binary, as the
/// usual listings print them).
tl::expected<double, std::string> size_of(std::string_view field);

/// The first rows of a listing as columns.
struct ListingPreview {
    std::vector<std::string> header;             ///< the first row, where it names columns; empty: it is data
    std::vector<std::vector<std::string>> rows;  ///< below it; not all need be as long
    std::vector<std::string> roles;              ///< of each column: its role, or empty where nothing tells
    /// Fields of the longest row.
    std::size_t columns() const { return roles.size(); }
};

/// The first row names columns where none of its fields is a time or a size. Its names then tell the roles;
/// without them what stands in the first data row does, as far as that is clear: the field with an `@` is the
/// snapshot, the one that is a moment of the years 1990 to 2100 its time.
ListingPreview preview_listing(const NextPiece& next, std::size_t rows);

}  // namespace ullage
