// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The files that were open lately, newest first, at most ten, kept between runs.

#include <QStringList>
#include <QTimer>

namespace ullage::ui {

class RecentFiles {
public:
    static constexpr int most = 10;
    static constexpr int write_after_ms = 300;  ///< the disk need not be waited for while a file opens

    RecentFiles();
    RecentFiles(const RecentFiles&) = delete;
    RecentFiles& operator=(const RecentFiles&) = delete;
    ~RecentFiles();

    /// Those that still exist and those that do not.
    QStringList all() const;
    void add(const QString& path);
    void clear();

private:
    void write();

    QStringList added_;  ///< not written yet, newest first
    QTimer later_;
};

}  // namespace ullage::ui
