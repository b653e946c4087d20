// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/recent_files.h"

#include "ui/window/window_settings.h"

#include <QFileInfo>

namespace ullage::ui {

namespace {
const QString key = QStringLiteral("files/recent");
}

RecentFiles::RecentFiles() {
    later_.setSingleShot(true);
    later_.setInterval(write_after_ms);
    QObject::connect(&later_, &QTimer::timeout, &later_, [this] { write(); });
}

RecentFiles::~RecentFiles() { write(); }

QStringList RecentFiles::all() const {
    QStringList paths = added_ + windowSettings().value(key).toStringList();
    paths.removeDuplicates();  // the first of each stays
    return paths.mid(0, most);
}

void RecentFiles::add(const QString& path) {
    const QString absolute = QFileInfo(path).absoluteFilePath();
    added_.removeAll(absolute);
    added_.prepend(absolute);
    later_.start();
}

void RecentFiles::clear() {
    added_.clear();
    windowSettings().remove(key);
}

void RecentFiles::write() {
    if (added_.isEmpty()) return;
    windowSettings().setValue(key, all());
    added_.clear();
}

}  // namespace ullage::ui
