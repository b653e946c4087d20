// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/recovery.h"

#include "core/site/site_json.h"
#include "ui/document/site_document.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QStandardPaths>
#include <QUuid>

#include <algorithm>

namespace ullage::ui {

namespace {

const QString copy_name = QStringLiteral("copy.site.json");
const QString origin_name = QStringLiteral("origin");
const QString lock_name = QStringLiteral("lock");

QString defaultRoot() {
    return QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) +
           QStringLiteral("/ullage/recovery");
}

std::unique_ptr<QLockFile> lockIn(const QString& folder) {
    auto lock = std::make_unique<QLockFile>(QDir(folder).filePath(lock_name));
    lock->setStaleLockTime(0);  // only a process that is gone makes it stale
    return lock;
}

}  // namespace

Recovery::Recovery(SiteDocument& document, QString root, QObject* parent)
    : QObject(parent),
      document_(document),
      root_(root.isEmpty() ? defaultRoot() : std::move(root)),
      folder_(root_ + QLatin1Char('/') + QUuid::createUuid().toString(QUuid::WithoutBraces)) {
    timer_.setSingleShot(true);
    connect(&timer_, &QTimer::timeout, this, &Recovery::copyNow);
    connect(&document_, &SiteDocument::siteChanged, this, &Recovery::documentChanged);
    connect(&document_, &SiteDocument::modifiedChanged, this, &Recovery::documentChanged);
}

Recovery::~Recovery() { removeCopy(); }

void Recovery::documentChanged() {
    if (!document_.isModified()) {
        timer_.stop();
        removeCopy();
        return;
    }
    const qint64 since =
        last_copy_.isValid() ? last_copy_.msecsTo(QDateTime::currentDateTimeUtc()) : every_ms;
    timer_.start(static_cast<int>(std::clamp<qint64>(every_ms - since, quiet_ms, every_ms)));
}

bool Recovery::copyNow() {
    if (!document_.isModified() || !validate(document_.site()).empty()) return false;
    if (copied_ == document_.siteValue()) return true;
    if (!QDir().mkpath(folder_)) return false;
    if (!lock_) {
        lock_ = lockIn(folder_);
        if (!lock_->tryLock(0)) {
            lock_.reset();
            return false;
        }
    }
    const QDir folder(folder_);
    const Site copy = withAbsolutePaths(document_.site(), document_.folder());
    if (!write_site_file(folder.filePath(copy_name).toStdString(), copy)) return false;
    QFile origin(folder.filePath(origin_name));
    const QByteArray path = document_.path().toUtf8();
    if (!origin.open(QIODevice::WriteOnly) || origin.write(path) != path.size()) return false;
    last_copy_ = QDateTime::currentDateTimeUtc();
    copied_ = document_.siteValue();
    return true;
}

void Recovery::removeCopy() {
    copied_.reset();
    if (!lock_) return;
    lock_->unlock();
    lock_.reset();
    QDir(folder_).removeRecursively();
}

QList<LostWork> Recovery::lostWork() const {
    QList<LostWork> found;
    for (const QFileInfo& entry :
         QDir(root_).entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Time)) {
        const QDir folder(entry.filePath());
        const auto lock = lockIn(folder.path());
        if (!lock->tryLock(0)) continue;  // of a window that is open
        auto site = read_site_file(folder.filePath(copy_name).toStdString());
        if (!site) continue;
        QFile origin(folder.filePath(origin_name));
        const QString path =
            origin.open(QIODevice::ReadOnly) ? QString::fromUtf8(origin.readAll()) : QString();
        found.append({folder.path(), path, QFileInfo(folder.filePath(copy_name)).lastModified(),
                      std::move(*site)});
    }
    std::sort(found.begin(), found.end(),
              [](const LostWork& a, const LostWork& b) { return a.when > b.when; });
    return found;
}

void Recovery::discard(const LostWork& work) { QDir(work.folder).removeRecursively(); }

}  // namespace ullage::ui
