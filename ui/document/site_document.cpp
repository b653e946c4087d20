// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/site_document.h"

#include "core/measure/evidence.h"
#include "core/site/site_json.h"

#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QFileInfo>
#include <QUndoCommand>

namespace ullage::ui {

namespace {

constexpr int undo_limit = 1000;  ///< steps: a long day's, some ten megabytes
constexpr qint64 merge_within_ms = 1000;
constexpr int mergeable = 1;  ///< any id but -1: the pointers decide

std::vector<std::string> pathsIn(const Site& site) {
    std::vector<std::string> paths;
    for (const Dataset& dataset : site.datasets) {
        paths.push_back(dataset.turnover ? dataset.turnover->listing : std::string());
        paths.push_back(dataset.usage);
    }
    return paths;
}

/// What measured files the site names, and how its listings are read.
std::vector<std::string> filesNamedIn(const Site& site) {
    std::vector<std::string> names = pathsIn(site);
    for (const Dataset& dataset : site.datasets) {
        const Turnover turnover = dataset.turnover.value_or(Turnover());
        names.insert(names.end(), turnover.listing_columns.begin(), turnover.listing_columns.end());
        names.push_back(turnover.listing_skip_bad_lines ? "without bad lines" : "whole");
    }
    return names;
}

/// The pointer of the field that names a file, or empty.
std::string pointerOfFile(const Site& site, const std::string& file, const QDir& folder) {
    const QString wanted = QDir::cleanPath(folder.absoluteFilePath(QString::fromStdString(file)));
    const auto is_it = [&](const std::string& path) {
        return !path.empty() &&
               (path == file ||
                QDir::cleanPath(folder.absoluteFilePath(QString::fromStdString(path))) == wanted);
    };
    for (std::size_t i = 0; i < site.datasets.size(); ++i) {
        const std::string base = "/datasets/" + std::to_string(i);
        if (site.datasets[i].turnover && is_it(site.datasets[i].turnover->listing))
            return base + "/turnover/listing";
        if (is_it(site.datasets[i].usage)) return base + "/usage";
    }
    return {};
}

QString movedPath(const std::string& path, const QString& from_folder, const QDir& to_folder) {
    const QString text = QString::fromStdString(path);
    if (text.isEmpty() || (from_folder.isEmpty() && QDir::isRelativePath(text))) return text;
    const QString absolute = QDir(from_folder).absoluteFilePath(text);
    return to_folder.relativeFilePath(QDir::cleanPath(absolute));
}

/// Saving replaces the file, which its folder may allow: the file's own marks are what counts, for
/// an administrator too, who may write to anything.
bool mayNotWrite(const QFileInfo& file) {
    const auto anyone = QFile::WriteOwner | QFile::WriteGroup | QFile::WriteOther;
    return file.exists() && (!file.isWritable() || !(file.permissions() & anyone));
}

void movePaths(Site& site, const QString& from_folder, const QDir& to_folder) {
    for (Dataset& dataset : site.datasets) {
        if (dataset.turnover)
            dataset.turnover->listing =
                movedPath(dataset.turnover->listing, from_folder, to_folder).toStdString();
        dataset.usage = movedPath(dataset.usage, from_folder, to_folder).toStdString();
    }
}

}  // namespace

Site withAbsolutePaths(Site site, const QString& folder) {
    if (folder.isEmpty()) return site;
    const auto absolute = [from = QDir(folder)](std::string& file) {
        if (file.empty()) return;
        file = QDir::cleanPath(from.absoluteFilePath(QString::fromStdString(file))).toStdString();
    };
    for (Dataset& dataset : site.datasets) {
        if (dataset.turnover) absolute(dataset.turnover->listing);
        absolute(dataset.usage);
    }
    return site;
}

/// One step: the whole site before and after.
class SiteEdit : public QUndoCommand {
public:
    SiteEdit(SiteDocument& document, const QString& text, QString pointer,
             std::shared_ptr<const Site> after)
        : QUndoCommand(text),
          document_(document),
          pointer_(std::move(pointer)),
          before_(document.siteValue()),
          after_(std::move(after)) {
        age_.start();
    }

    void redo() override {
        document_.setSite(after_);
        if (done_once_) emit document_.stepped(pointer_);
        done_once_ = true;
    }

    void undo() override {
        document_.setSite(before_);
        emit document_.stepped(pointer_);
    }

    int id() const override { return pointer_.isEmpty() ? -1 : mergeable; }

    bool mergeWith(const QUndoCommand* other) override {
        const auto& next = static_cast<const SiteEdit&>(*other);
        if (next.pointer_ != pointer_ || age_.elapsed() > merge_within_ms) return false;
        after_ = next.after_;
        age_.restart();
        if (*before_ == *after_) setObsolete(true);
        return true;
    }

private:
    SiteDocument& document_;
    QString pointer_;
    std::shared_ptr<const Site> before_, after_;
    QElapsedTimer age_;
    bool done_once_ = false;
};

SiteDocument::SiteDocument(QObject* parent)
    : SiteDocument(
          [this](const Site& site, const std::string& folder) {
              return load_evidence(site, folder, [this](const std::string& name) {
                  return outside_allowed_ || named_by_file_.count(name) == 0;
              });
          },
          parent) {}

SiteDocument::SiteDocument(EvidenceLoader loader, QObject* parent)
    : QObject(parent),
      loader_(std::move(loader)),
      site_(std::make_shared<const Site>()),
      evidence_(std::make_shared<const Evidence>()) {
    undo_.setUndoLimit(undo_limit);
    connect(&undo_, &QUndoStack::cleanChanged, this,
            [this](bool clean) { emit modifiedChanged(open_ && !clean); });
}

SiteDocument::~SiteDocument() { undo_.disconnect(this); }

QString SiteDocument::folder() const {
    return path_.isEmpty() ? QString() : QFileInfo(path_).absolutePath();
}

std::optional<BadInput> SiteDocument::open(const QString& path) {
    auto read = read_site_file(path.toStdString());
    if (!read) return read.error();
    const std::vector<std::string> paths = pathsIn(*read);
    named_by_file_ = {paths.begin(), paths.end()};
    replace(std::make_shared<const Site>(std::move(*read)), QFileInfo(path).absoluteFilePath(),
            true);
    return std::nullopt;
}

std::optional<BadInput> SiteDocument::openCopy(const QString& path) {
    auto read = read_site_file(path.toStdString());
    if (!read) return read.error();
    start(withAbsolutePaths(std::move(*read), QFileInfo(path).absolutePath()));
    return std::nullopt;
}

void SiteDocument::start(const Site& site, bool modified) {
    named_by_file_.clear();
    replace(std::make_shared<const Site>(site), QString(), true);
    if (modified) {
        undo_.resetClean();
        emit modifiedChanged(true);
    }
}

void SiteDocument::recover(const Site& site, const QString& path) {
    named_by_file_.clear();
    Site recovered = site;
    if (!path.isEmpty()) movePaths(recovered, QString(), QFileInfo(path).absoluteDir());
    replace(std::make_shared<const Site>(std::move(recovered)), path, true);
    undo_.resetClean();
    emit modifiedChanged(true);
}

void SiteDocument::close() { replace(std::make_shared<const Site>(), QString(), false); }

void SiteDocument::replace(std::shared_ptr<const Site> site, const QString& path, bool is_open) {
    open_ = is_open;
    site_ = std::move(site);
    path_ = path;
    undo_.clear();
    noteFileState();
    refreshEvidence(true);
    const bool problems_changed = findProblems();
    emit pathChanged(path_);
    emit modifiedChanged(isModified());
    emit replaced();
    emit siteChanged();
    if (problems_changed) emit problemsChanged();
}

tl::expected<void, QString> SiteDocument::save() {
    if (path_.isEmpty()) return tl::make_unexpected(tr("The site has no file yet."));
    return saveAs(path_);
}

tl::expected<void, QString> SiteDocument::saveAs(const QString& path) {
    const Problems faults = validate(*site_);
    if (!faults.empty())
        return tl::make_unexpected(
            tr("Not saved, since the file could not be opened again before this is mended: %1 (%2)")
                .arg(QString::fromStdString(faults.front().what),
                     QString::fromStdString(faults.front().where)));
    if (mayNotWrite(QFileInfo(path)))
        return tl::make_unexpected(
            tr("%1 is read-only: nothing was saved. The work can be saved to another file.")
                .arg(QFileInfo(path).fileName()));
    const QString absolute = QFileInfo(path).absoluteFilePath();
    const QDir new_folder = QFileInfo(absolute).absoluteDir();
    if (new_folder != QDir(folder()) || path_.isEmpty()) {
        std::set<std::string> moved;
        for (const std::string& name : named_by_file_)
            moved.insert(movedPath(name, folder(), new_folder).toStdString());
        named_by_file_ = std::move(moved);
        editSite(tr("the paths of listings"),
                 [&](Site& site) { movePaths(site, folder(), new_folder); });
    }
    const auto written = write_site_file(absolute.toStdString(), *site_);
    if (!written) return tl::make_unexpected(QString::fromStdString(written.error()));
    path_ = absolute;
    noteFileState();
    undo_.setClean();
    refreshEvidence(true);
    const bool problems_changed = findProblems();
    emit pathChanged(path_);
    emit modifiedChanged(false);
    if (problems_changed) emit problemsChanged();
    return {};
}

void SiteDocument::noteFileState() {
    const QFileInfo info(path_);
    file_time_ = path_.isEmpty() ? QDateTime() : info.lastModified();
    file_size_ = path_.isEmpty() ? -1 : info.size();
}

bool SiteDocument::changedOnDisk() const {
    if (path_.isEmpty()) return false;
    const QFileInfo info(path_);
    return info.exists() && (info.lastModified() != file_time_ || info.size() != file_size_);
}

void SiteDocument::keepMine() {
    noteFileState();
    undo_.resetClean();
    emit modifiedChanged(isModified());
}

bool SiteDocument::isReadOnly() const { return mayNotWrite(QFileInfo(path_)); }

void SiteDocument::editSite(const QString& text, const std::function<void(Site&)>& edit,
                            const QString& pointer) {
    tryEdit(
        text,
        [&](Site& site) {
            edit(site);
            return QString();
        },
        pointer);
}

QString SiteDocument::tryEdit(const QString& text, const std::function<QString(Site&)>& edit,
                              const QString& pointer) {
    auto changed = std::make_shared<Site>(*site_);
    const QString refusal = edit(*changed);
    if (!refusal.isEmpty() || *changed == *site_) return refusal;
    undo_.push(new SiteEdit(*this, text, pointer, std::move(changed)));
    return {};
}

void SiteDocument::setSite(std::shared_ptr<const Site> site) {
    site_ = std::move(site);
    refreshEvidence(false);
    const bool problems_changed = findProblems();
    emit siteChanged();
    if (problems_changed) emit problemsChanged();
}

void SiteDocument::reloadEvidence() {
    refreshEvidence(true);
    const bool problems_changed = findProblems();
    emit siteChanged();
    if (problems_changed) emit problemsChanged();
}

void SiteDocument::refreshEvidence(bool even_if_the_same) {
    std::vector<std::string> named = filesNamedIn(*site_);
    if (!even_if_the_same && named == evidence_named_) return;
    evidence_named_ = std::move(named);
    auto loaded = loader_(*site_, folder().toStdString());
    if (loaded) {
        evidence_ = std::make_shared<const Evidence>(std::move(*loaded));
        evidence_faults_.clear();
    } else {
        evidence_ = std::make_shared<const Evidence>();
        evidence_faults_ = std::move(loaded.error());
    }
}

bool SiteDocument::findProblems() {
    Problems found = open_ ? validate(*site_) : Problems();
    const QDir from(folder());
    for (const BadInput& fault : evidence_faults_) {
        if (fault.file.empty()) {
            found.insert(found.end(), fault.problems.begin(), fault.problems.end());
            continue;
        }
        const std::string where = pointerOfFile(*site_, fault.file, from);
        for (const Problem& problem : fault.problems) {
            const std::string place = problem.where.empty() ? "" : problem.where + ": ";
            found.push_back({where, fault.file + ": " + place + problem.what});
        }
        if (fault.problems.empty())
            found.push_back(
                {where,
                 tr("%1 cannot be read.").arg(QString::fromStdString(fault.file)).toStdString()});
    }
    if (found == problems_) return false;
    problems_ = std::move(found);
    return true;
}

}  // namespace ullage::ui
