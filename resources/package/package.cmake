# SPDX-License-Identifier: GPL-3.0-or-later
# The Debian package: cmake --preset package && cmake --build --preset package --target package
set(changelog ${CMAKE_CURRENT_BINARY_DIR}/changelog)
configure_file(${CMAKE_CURRENT_LIST_DIR}/changelog.in ${changelog} @ONLY)
install_zipped(${changelog} ${CMAKE_INSTALL_DOCDIR})
install(FILES ${CMAKE_CURRENT_LIST_DIR}/copyright ${PROJECT_SOURCE_DIR}/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR})

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME ullage)
set(CPACK_PACKAGE_VENDOR "Ullage developers")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "forecast how full backup boxes get")
set(CPACK_PACKAGE_DESCRIPTION
"For people who look after storage with snapshots and copy it by block-level
sends to a second box. Ullage reads a description of the site and measured
snapshot listings, models how blocks turn over, and says with dates and
spreads when each box is full, whether the line carries each send, how long
it may be down, how long a restore takes, and what to order by when.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "Ullage developers <developers@ullage.invalid>")
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "tzdata, fonts-dejavu-core")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "qt6-translations-l10n")
include(CPack)
