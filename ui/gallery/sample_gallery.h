// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The sample sites as cards. The cards are there at once; their pictures come one by one from a quick
/// forecast in the background.

#include "ui/gallery/sample_picture.h"
#include "ui/run/latest_task.h"

#include <QHash>
#include <QStringList>
#include <QWidget>

namespace ullage::ui {

class SampleCard;

class SampleGallery : public QWidget {
    Q_OBJECT

public:
    explicit SampleGallery(QWidget* parent = nullptr);

    /// Files to show, in this order; those that cannot be read are left out. The same files again: nothing
    /// changes.
    void setSamples(const QStringList& paths);
    int count() const { return static_cast<int>(cards_.size()); }

signals:
    void chosen(const QString& path);

private:
    QStringList paths_;
    QHash<QString, SampleCard*> cards_;
    LatestTask task_;  ///< last: it ends before what it uses
};

/// "x-shows" of a site: what it is there to show; empty if it does not say.
QString whatItShows(const Site& site);

}  // namespace ullage::ui
