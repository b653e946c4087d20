// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Taking a snapshot listing into the site: its first lines as columns, what each one is, which datasets are wanted
/// and as what, which lines cannot be read, and what will happen in words.
///
/// Nothing is changed here: `accept` leaves a plan for importListing. The file is read in the background each time
/// the columns' roles change.

#include "core/measure/listing_columns.h"
#include "ui/import/listing_import.h"
#include "ui/run/latest_task.h"

#include <QDialog>

class QCheckBox;
class QComboBox;
class QLabel;
class QPlainTextEdit;
class QPushButton;
class QTableWidget;

namespace ullage::ui {

class ImportDialog : public QDialog {
    Q_OBJECT

public:
    /// `path` is read; `name_in_site` is what the site will call it; `site` as it is now.
    ImportDialog(const QString& path, const QString& name_in_site, ListingPreview preview, Site site,
                 QWidget* parent = nullptr);

    /// As things stand; what it holds is importable only where `isReady`.
    ListingPlan plan() const;
    /// Every role has its column, the file was read, something is wanted, no line is in the way.
    bool isReady() const;
    /// Still at the file.
    bool isReading() const { return reading_; }
    /// The sentence over the buttons.
    QString said() const;

public slots:
    void accept() override;

private:
    QWidget* makePreview();
    void makeDatasets();
    void setRoles(const QStringList& roles);
    void roleChosen(int column);
    QStringList roles() const;
    QStringList rolesMissing() const;
    void read();
    void present(FoundListing found);
    void fillDatasets();
    void say();

    QString path_;
    ListingPreview preview_;
    Site site_;
    ListingPlan base_;  ///< without what is wanted
    FoundListing found_;
    bool reading_ = false;

    QList<QComboBox*> role_boxes_;
    QTableWidget* datasets_;
    QWidget* bad_;
    QLabel* bad_heading_;
    QPlainTextEdit* bad_lines_;
    QCheckBox* leave_out_;
    QLabel* words_;
    QPushButton* add_;
    LatestTask task_;
};

}  // namespace ullage::ui
