// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Keeps a copy of unsaved work aside, so that a crash or a power cut does not take it.
///
/// While the document is modified and has been left alone for two seconds, a copy is written at
/// most every 30 seconds to a folder of its own below the user's data; never over the user's file.
/// A lock with the process number tells a crashed window's copy from that of a window still open.
/// The copy goes when the work is saved, undone to the saved state, or given up on purpose. A site
/// with faults is not copied (it could not be read again); the copy before it stays.

#include "core/site/site.h"

#include <QDateTime>
#include <QList>
#include <QLockFile>
#include <QObject>
#include <QString>
#include <QTimer>

#include <memory>
#include <optional>

namespace ullage::ui {

class SiteDocument;

/// Work that a window did not get to save.
struct LostWork {
    QString folder;  ///< holds the copy
    QString origin;  ///< the file it was of; may be empty
    QDateTime when;  ///< of the copy
    Site site;       ///< paths of listings are absolute
};

class Recovery : public QObject {
    Q_OBJECT

public:
    static constexpr int every_ms = 30000;
    static constexpr int quiet_ms = 2000;

    /// `root` holds one folder a window; empty: below the user's data.
    explicit Recovery(SiteDocument& document, QString root = {}, QObject* parent = nullptr);
    ~Recovery() override;

    /// Copies now if there is anything to copy. True if a copy of the present state is there.
    bool copyNow();
    /// Work of windows that are gone, newest first. Copies that cannot be read are left out.
    QList<LostWork> lostWork() const;
    static void discard(const LostWork& work);

private:
    void documentChanged();
    void removeCopy();

    SiteDocument& document_;
    QString root_, folder_;
    std::unique_ptr<QLockFile> lock_;
    QTimer timer_;
    QDateTime last_copy_;
    std::shared_ptr<const Site> copied_;
};

}  // namespace ullage::ui
