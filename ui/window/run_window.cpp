// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/run_window.h"

#include "ui/charts/fill_chart.h"
#include "ui/language/spoken_language.h"
#include "ui/report/write_report.h"
#include "ui/window/main_window.h"
#include "ui/window/window_settings.h"

#include <QApplication>
#include <QIcon>
#include <QLocale>

namespace ullage::ui {

namespace {

constexpr int could_not_write = 3;

void nameApplication() {
    QApplication::setApplicationName(QStringLiteral("ullage"));
    QApplication::setApplicationDisplayName(QStringLiteral("Ullage"));
    QApplication::setOrganizationName(QStringLiteral("Ullage"));
    QApplication::setApplicationVersion(QStringLiteral(ULLAGE_VERSION));
    QApplication::setDesktopFileName(QStringLiteral("local.ullage.ullage"));
    QApplication::setWindowIcon(QIcon(QStringLiteral(":/ullage.svg")));
}

/// What the user chose in the menu, else the system's.
Language windowLanguage() {
    const QString chosen = windowSettings().value(QStringLiteral("view/language")).toString();
    if (const auto language = language_of(chosen.toStdString())) return *language;
    for (const QString& name : QLocale::system().uiLanguages())
        if (const auto language = language_of(name.toStdString())) return *language;
    return Language::english;
}

}  // namespace

int runWindow(int& argc, char** argv, const std::optional<std::string>& sitePath,
              const Settings& settings, bool allowOutside) {
    QApplication application(argc, argv);
    nameApplication();
    speak(windowLanguage());
    MainWindow window(settings);
    if (allowOutside) window.document().allowOutside();
    // Before it is shown: the start page is not made then.
    if (sitePath) window.openFile(QString::fromStdString(*sitePath));
    window.show();
    window.offerLostWork();
    return QApplication::exec();
}

int writePictures(int& argc, char** argv, const Answer& answer, const std::string& folder,
                  std::vector<std::string>& written) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application(argc, argv);
    nameApplication();
    const Speaking speaking(answer.language);
    QStringList paths;
    const bool all = writeFillPictures(answer, QString::fromStdString(folder), &paths);
    for (const QString& path : std::as_const(paths)) written.push_back(path.toStdString());
    return all ? 0 : could_not_write;
}

std::string layReport(int& argc, char** argv, const Answer& answer, const std::string& logo,
                      bool letter, std::string* pdf, std::string* html) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application(argc, argv);
    nameApplication();
    const auto picture = read_logo(QByteArray::fromStdString(logo));
    if (!picture) return picture.error();
    const ReportContent content = report_of(answer);
    if (html) *html = html_of(answer, content, *picture);
    if (pdf)
        *pdf = ReportPages(std::make_shared<const Answer>(answer), content,
                           letter ? Paper::letter : Paper::a4, *picture)
                   .pdf()
                   .toStdString();
    return {};
}

}  // namespace ullage::ui
