// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The file of the open site, watched: another program that changes it, another window that has it open.
///
/// A lock for each file lies in the user's data, not beside the file, which may be in a folder that is shared or
/// read-only; so windows of other users or machines are not seen. Nothing is read or written here.

#include <QDateTime>
#include <QFileSystemWatcher>
#include <QLockFile>
#include <QObject>
#include <QString>
#include <QTimer>

#include <memory>

namespace ullage::ui {

class SiteDocument;

class OpenFile : public QObject {
    Q_OBJECT

public:
    /// `root` holds the locks; empty: below the user's data.
    explicit OpenFile(SiteDocument& document, QString root = {}, QObject* parent = nullptr);

    /// True if a window of this program had the file open before this one.
    bool isOpenElsewhere() const { return open_elsewhere_; }

signals:
    /// The file is no longer what was read or saved last. Once for each such change.
    void changedOutside();
    void openElsewhere();

private:
    void follow(const QString& path);
    void look();

    SiteDocument& document_;
    QString root_, path_;
    std::unique_ptr<QLockFile> lock_;
    bool open_elsewhere_ = false;
    QDateTime told_of_;  ///< the last change that was told
    QFileSystemWatcher watcher_;
    QTimer settle_;
};

}  // namespace ullage::ui
