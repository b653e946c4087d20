// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A widget that is a picture: it paints itself the same way on the screen, into an image and onto
/// paper, can take the keyboard's focus and shows it, and tells assistive technology in words what
/// it shows (role: graphic).

#include <QWidget>

class QColor;

namespace ullage {

struct Theme;

/// How current what is shown is. Old figures stay visible, paler, until new ones come.
enum class ShownState { nothing, ready, updating, cancelled, failed };

/// "Updating…", "Out of date: cancelled", "Out of date: the calculation failed"; empty when ready.
QString state_words(ShownState state);
/// Whether the figures are not of the present site: they are drawn paler.
bool out_of_date(ShownState state);

class DrawnWidget : public QWidget {
    Q_OBJECT

public:
    explicit DrawnWidget(QWidget* parent = nullptr);

    /// Paints into `place` with colours made from `palette`. Device independent; leaves the painter
    /// as it was.
    void paintTo(QPainter& painter, const QRectF& place, const QPalette& palette,
                 const QFont& font) const;
    /// 44 times the font's height wide, and 20 times at least; as high as that width needs.
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    void setState(ShownState state);
    ShownState state() const { return state_; }

protected:
    /// The picture on a ground of the theme's surface, its corner at (0, 0); paler already when the
    /// figures are out of date.
    virtual void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                             const QFont& font) const = 0;
    /// Name and description for assistive technology; an event is sent for what changed.
    void describe(const QString& name, const QString& description);
    /// Called after the state changed: derived classes say it in their description.
    virtual void stateChanged() {}

    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    ShownState state_ = ShownState::nothing;
};

/// Free room, in pixels, that drawn widgets keep at their edges for the focus ring.
inline constexpr double ring_room = 6;
/// Opacity of figures that are out of date.
inline constexpr double stale_opacity = 0.45;

/// Rising lines `pitch` pixels apart over `place`, in the painter's opacity.
void hatch(QPainter& painter, const QRectF& place, const QColor& colour, double pitch,
           double width = 1.6);

}  // namespace ullage
