// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What an empty window offers: open a file, open a sample, import a listing, or start a site from
/// five figures.

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

private:
    QWidget* makeOpenColumn();
    QWidget* makeFiguresColumn();
    QWidget* makeSamples();
    void createSite();

    SmallSite figures_;
    QList<Field*> fields_;
    QVBoxLayout* recent_;
    QWidget *recent_box_, *samples_box_;
    SampleGallery* gallery_;
};

/// Where the sample sites are: the folder that ULLAGE_SAMPLES names, else beside the program, else
/// in the source tree it was built from. Empty if there is none.
QString samplesFolder();

}  // namespace ullage::ui
