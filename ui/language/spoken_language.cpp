// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/language/spoken_language.h"

#include <QCoreApplication>
#include <QLibraryInfo>
#include <QPointer>
#include <QTranslator>

namespace ullage {

/// The compiled catalogue (lrelease), made at build time from resources/translations/ullage_de.ts.
extern const unsigned char german_window[];
extern const unsigned long german_window_bytes;

namespace {

Language spoken = Language::english;

class SpokenTranslator : public QTranslator {
public:
    explicit SpokenTranslator(QObject* parent) : QTranslator(parent) {
        // Without either, texts stay English.
        (void)ours_.load(german_window, static_cast<int>(german_window_bytes));
        (void)qts_.load(QStringLiteral("qtbase_de"),
                        QLibraryInfo::path(QLibraryInfo::TranslationsPath));
    }

    bool isEmpty() const override { return false; }

    QString translate(const char* context, const char* text, const char* disambiguation,
                      int n) const override {
        if (spoken == Language::english) return {};
        const QString said = ours_.translate(context, text, disambiguation, n);
        return said.isNull() ? qts_.translate(context, text, disambiguation, n) : said;
    }

private:
    QTranslator ours_, qts_;
};

void install_once() {
    static QPointer<SpokenTranslator> installed;
    QCoreApplication* application = QCoreApplication::instance();
    if (installed || !application) return;
    installed = new SpokenTranslator(application);
    QCoreApplication::installTranslator(installed);
}

QLocale figures_of(Language language) {
    return language == Language::german ? QLocale(QLocale::German, QLocale::Germany)
                                        : QLocale(QLocale::English, QLocale::UnitedStates);
}

}  // namespace

Language spoken_language() { return spoken; }

void speak(Language language) {
    install_once();
    spoken = language;
    const QLocale system = QLocale::system();
    QLocale::setDefault(language_of(system.name().toStdString()) == language
                            ? system
                            : QLocale(language == Language::german ? QLocale::German : QLocale::English));
}

Speaking::Speaking(Language language) : before_(spoken) {
    install_once();
    spoken = language;
    QLocale::setDefault(figures_of(language));
}

Speaking::~Speaking() {
    spoken = before_;
    QLocale::setDefault(figures_before_);
}

}  // namespace ullage
