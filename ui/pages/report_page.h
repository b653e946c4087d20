// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// "Report": the pages that a client gets, as they will be, and buttons that save them.

#include "ui/pages/page.h"
#include "ui/report/report_pages.h"

class QPushButton;

namespace ullage {

class ReportPreview;

class ReportPage : public Page {
    Q_OBJECT

public:
    explicit ReportPage(QWidget* parent = nullptr);

    /// Of the report; the window's, until another is chosen.
    void setLanguage(Language language);
    /// Nothing changes: a report is in decimal units, whoever reads it.
    void setPrefixes(Prefixes) override {}
    /// Nothing is shown of an item alone.
    void showItem(const QString&) override {}
    /// Where the file dialogs begin.
    void setFolder(const QString& folder) { folder_ = folder; }

    enum class As { pdf, html };
    /// Writes the report whole or not at all, and says on the page which of them.
    bool save(const QString& path, As as);
    /// Of a PNG or JPEG; an empty path takes the logo away. False, and said on the page, if it is
    /// none.
    bool useLogo(const QString& path);
    ReportPreview* preview() const { return preview_; }
    QString said() const;  ///< the last word about a file; empty: none
    const std::shared_ptr<const ReportPages>& pages() const { return pages_; }

protected:
    void refresh() override;
    void applyState() override;
    void retheme() override;
    void showEvent(QShowEvent* event) override;

private:
    void lay();
    void choose(As as);
    void chooseLogo();
    void tell(const QString& words);

    ReportPreview* preview_ = nullptr;
    Chooser paper_, language_;
    QPushButton *pdf_ = nullptr, *html_ = nullptr, *logo_button_ = nullptr;
    QLabel *state_text_ = nullptr, *said_ = nullptr;
    QString folder_;
    QImage logo_;
    std::shared_ptr<const Answer> told_;  ///< the answer in decimal units and the chosen language
    std::shared_ptr<const ReportPages> pages_;
    bool laid_ = false;  ///< pages_ are of the present answer
};

}  // namespace ullage
