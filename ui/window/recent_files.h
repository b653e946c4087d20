// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The files that were open lately, newest first, at most ten, kept between runs.

#include <QStringList>

namespace ullage::ui {

class RecentFiles {
public:
    static constexpr int most = 10;

    /// Those that still exist and those that do not.
    QStringList all() const;
    void add(const QString& path);
    void clear();
};

}  // namespace ullage::ui
