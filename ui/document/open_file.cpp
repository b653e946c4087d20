// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/open_file.h"

#include "ui/document/site_document.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>

namespace ullage::ui {

namespace {

// Programs that save by making a new file do it in several steps.
constexpr int settle_ms = 150;

QString defaultRoot() {
    return QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) + QStringLiteral("/ullage/open");
}

QString lockName(const QString& path) {
    const QString canonical = QFileInfo(path).canonicalFilePath();
    return QString::fromLatin1(QCryptographicHash::hash(canonical.toUtf8(), QCryptographicHash::Sha256).toHex()) +
           QStringLiteral(".lock");
}

}  // namespace

OpenFile::OpenFile(SiteDocument& document, QString root, QObject* parent)
    : QObject(parent), document_(document), root_(root.isEmpty() ? defaultRoot() : std::move(root)) {
    settle_.setSingleShot(true);
    settle_.setInterval(settle_ms);
    connect(&settle_, &QTimer::timeout, this, &OpenFile::look);
    connect(&watcher_, &QFileSystemWatcher::fileChanged, &settle_, qOverload<>(&QTimer::start));
    connect(&watcher_, &QFileSystemWatcher::directoryChanged, &settle_, qOverload<>(&QTimer::start));
    connect(&document_, &SiteDocument::pathChanged, this, &OpenFile::follow);
    follow(document_.path());
}

void OpenFile::follow(const QString& path) {
    if (!watcher_.files().isEmpty()) watcher_.removePaths(watcher_.files());
    if (!watcher_.directories().isEmpty()) watcher_.removePaths(watcher_.directories());
    settle_.stop();
    if (!path.isEmpty()) {
        // The folder too: a file that was replaced is no longer watched.
        watcher_.addPath(path);
        watcher_.addPath(QFileInfo(path).absolutePath());
    }
    if (path == path_) return;
    path_ = path;
    told_of_ = {};
    lock_.reset();
    open_elsewhere_ = false;
    if (path.isEmpty() || !QDir().mkpath(root_)) return;
    lock_ = std::make_unique<QLockFile>(QDir(root_).filePath(lockName(path)));
    lock_->setStaleLockTime(0);  // only a process that is gone makes it stale
    if (lock_->tryLock(0)) return;
    open_elsewhere_ = lock_->error() == QLockFile::LockFailedError;
    lock_.reset();
    if (open_elsewhere_) emit openElsewhere();
}

void OpenFile::look() {
    if (path_.isEmpty()) return;
    if (!watcher_.files().contains(path_) && QFileInfo::exists(path_)) watcher_.addPath(path_);
    const QDateTime when = QFileInfo(path_).lastModified();
    if (!document_.changedOnDisk() || when == told_of_) return;
    told_of_ = when;
    emit changedOutside();
}

}  // namespace ullage::ui
