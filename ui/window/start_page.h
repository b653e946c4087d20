// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What an empty window offers: open a file, open a sample, import a listing, or start a site from
/// five figures. Made when it first comes to sight: a window that opens on a site does without.

#include "ui/document/small_site.h"

#include <QList>
#include <QStringList>
#include <QWidget>

class QPushButton;
class QVBoxLayout;

namespace ullage::ui {

class Field;
class SampleGallery;

class StartPage : public QWidget {
    Q_OBJECT

public:
    explicit StartPage(QWidget* parent = nullptr);

    /// Files to offer; those that do not exist are left out.
    void setRecent(const QStringList& paths);
    void setSamples(const QStringList& paths);

signals:
    void openWanted();
    void listingWanted();
    void fileChosen(const QString& path);
    /// A sample is opened as a copy without a file, so that it stays as it is.
    void sampleChosen(const QString& path);
    void siteWanted(const ullage::Site& site);

protected:
    void showEvent(QShowEvent* event) override;

private:
    void make();
    void showRecent();
    void showSamples();
    QWidget* makeOpenColumn();
    QWidget* makeFiguresColumn();
    QWidget* makeSamples();
    void createSite();

    SmallSite figures_;
    QList<Field*> fields_;
    QStringList recent_paths_, sample_paths_;
    QVBoxLayout* recent_ = nullptr;
    QWidget *recent_box_ = nullptr, *samples_box_ = nullptr;
    SampleGallery* gallery_ = nullptr;  ///< null: nothing is made yet
};

/// Where the sample sites are: the folder that ULLAGE_SAMPLES names, else beside the program, else
/// in the source tree it was built from. Empty if there is none.
QString samplesFolder();

}  // namespace ullage::ui
