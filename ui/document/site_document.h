// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The open site: its value, its file, the measured files it names, what is wrong with it, and the
/// edits that led to it.
///
/// The site is an immutable value behind a shared pointer; an edit makes a new one and is one step
/// of the undo stack, so that undo gives back exactly the value that was there. "Modified" is the
/// undo stack's distance from the saved state. Reading and writing happen on the calling thread (a
/// site file takes milliseconds); listings are read again only when the site names others.
/// Nothing is computed here.

#include "core/measure/listing.h"
#include "core/site/site.h"
#include "core/units/problem.h"

#include <QDateTime>
#include <QObject>
#include <QString>
#include <QUndoStack>

#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage::ui {

/// The site with the paths of its listings made absolute; relative ones are taken from `folder`. An
/// empty folder leaves them alone.
Site withAbsolutePaths(Site site, const QString& folder);

class SiteDocument : public QObject {
    Q_OBJECT

public:
    /// Reads the listings and histories that a site names, relative to a folder.
    using EvidenceLoader = std::function<tl::expected<Evidence, std::vector<BadInput>>(
        const Site&, const std::string& folder)>;

    /// With the core's own loader.
    explicit SiteDocument(QObject* parent = nullptr);
    explicit SiteDocument(EvidenceLoader loader, QObject* parent = nullptr);
    ~SiteDocument() override;

    bool isOpen() const { return open_; }
    const Site& site() const { return *site_; }
    std::shared_ptr<const Site> siteValue() const { return site_; }
    std::shared_ptr<const Evidence> evidence() const { return evidence_; }

    /// Of the file; empty while the site has never been saved.
    QString path() const { return path_; }
    QString folder() const;
    bool isModified() const { return open_ && !undo_.isClean(); }
    QUndoStack* undoStack() { return &undo_; }

    /// What stands in the way of a forecast: the faults of the site, then of the files it names
    /// (their pointer is the field that names the file). Empty: it can be computed.
    const Problems& problems() const { return problems_; }

    /// Opens a file. Returns what is wrong with it; then the site that was open stays.
    std::optional<BadInput> open(const QString& path);
    /// Opens a copy of a file (a sample) that has no file of its own yet; the paths of its listings
    /// lead to the same files.
    std::optional<BadInput> openCopy(const QString& path);
    /// Goes on with work that was not saved: of the file `path`, or of none if that is empty.
    void recover(const Site& site, const QString& path);
    /// Starts with a site that has no file yet. It counts as unmodified until the first edit,
    /// unless `modified`.
    void start(const Site& site, bool modified = false);
    /// Forgets the site.
    void close();

    /// Writes to its own path, or to another, which becomes its own. The error is a sentence. A
    /// site with faults is not written, since its file could not be opened again. Paths of listings
    /// are rewritten to lead to the same files from a new folder.
    tl::expected<void, QString> save();
    tl::expected<void, QString> saveAs(const QString& path);
    /// True if the file is no longer what was read or written last.
    bool changedOnDisk() const;
    /// Holds on to the open site although its file was changed: it counts as unsaved, and the next
    /// save writes over the file as it is now.
    void keepMine();
    /// True if the site has a file and that file is not to be written to.
    bool isReadOnly() const;

    /// One undoable edit; `text` completes "Undo …". No step is made if nothing changes. Edits of
    /// the same non-empty `pointer` within a second become one step.
    void editSite(const QString& text, const std::function<void(Site&)>& edit,
                  const QString& pointer = {});
    /// The same for an edit that can refuse: it returns an empty text, or why not; then nothing
    /// changes and the text is returned.
    QString tryEdit(const QString& text, const std::function<QString(Site&)>& edit,
                    const QString& pointer = {});

    /// Lets listings lie outside the site's folder. Without it only those may that were named here, and not
    /// by the file that was opened: that file may be someone else's.
    void allowOutside() { outside_allowed_ = true; }
    /// Reads the measured files again.
    void reloadEvidence();

signals:
    /// Any change of the value, undo and redo included. `problems()` are those of the new value.
    void siteChanged();
    /// Another site: opened, started or closed. Comes before its siteChanged.
    void replaced();
    void problemsChanged();
    void modifiedChanged(bool modified);
    void pathChanged(const QString& path);
    /// An undo or redo went over an edit of this pointer (may be empty).
    void stepped(const QString& pointer);

private:
    friend class SiteEdit;
    void setSite(std::shared_ptr<const Site> site);
    void replace(std::shared_ptr<const Site> site, const QString& path, bool is_open);
    void refreshEvidence(bool even_if_the_same);
    bool findProblems();  ///< true if they are others than before
    void noteFileState();

    EvidenceLoader loader_;
    bool open_ = false;
    std::shared_ptr<const Site> site_;
    std::shared_ptr<const Evidence> evidence_;
    std::vector<BadInput> evidence_faults_;
    std::vector<std::string> evidence_named_;  ///< and how it was read
    std::set<std::string> named_by_file_;  ///< paths of listings that the opened file named
    bool outside_allowed_ = false;
    Problems problems_;
    QString path_;
    QDateTime file_time_;
    qint64 file_size_ = -1;
    QUndoStack undo_;
};

}  // namespace ullage::ui
