# The package for Debian, made by `cpack` in the build folder: the binary, the parts it loads when they are used, the page on restoring, and a timer
# that backs up. What it depends on is worked out from the files themselves; what is loaded by name at run time no such reading can see and is
# named here.
install(FILES CHANGELOG.md DESTINATION share/doc/heatwork)
install(FILES docs/how-to/back-up-and-restore.md DESTINATION share/doc/heatwork/how-to)
install(FILES LICENSE DESTINATION share/doc/heatwork RENAME copyright)
install(DIRECTORY docs/records DESTINATION share/doc/heatwork OPTIONAL FILES_MATCHING PATTERN "*.md")
install(FILES "packages/systemd/heatwork-back-up@.service" "packages/systemd/heatwork-back-up@.timer" DESTINATION lib/systemd/system)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME heatwork)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "The Heatwork authors")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "Rehearses furnace firings of dental ceramics and keeps a lab's records")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "libsoci-sqlite3-4.0, libsoci-postgresql4.0, fonts-dejavu-core, tzdata")
include(CPack)
