// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A PDF's outline (the list of its sections that readers show beside it), which the PDF writer
/// does not make.
///
/// Added as an incremental update: what was written stays as it is; the new objects, a new
/// catalogue, a cross-reference table of them and a trailer that points to the old one come after
/// it. Source: ISO 32000-1:2008, 7.5.6 (incremental updates), 12.3.3 (outlines), 14.9.2 (language),
/// from memory.

#include <QByteArray>
#include <QString>

#include <vector>

namespace ullage {

struct OutlineMark {
    QString title;
    int page = 0;    ///< from 0
    double top = 0;  ///< points, from the page's lower edge
    int level = 0;   ///< 0: a section; 1: of the section before it
};

/// The file as it was, if it has no plain cross-reference table or no such page.
QByteArray with_outline(const QByteArray& pdf, const std::vector<OutlineMark>& marks,
                        const QByteArray& language);

}  // namespace ullage
