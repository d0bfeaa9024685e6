# The package for Debian, made by `cpack` in the build folder: the binary with the page in it, the parts it loads when they are used, the service,
# a timer that backs up, the manual page, what bash completes by, and the how-to pages. What it depends on is worked out from the files themselves;
# what is loaded by name at run time no such reading can see and is named here.
install(CODE "if(NOT EXISTS \"${CMAKE_SOURCE_DIR}/page/dist/index.html\")
  message(FATAL_ERROR \"The page is not built, and a package carries it: ./run serve or ./test builds it, then the binary.\")
endif()")
install(FILES CHANGELOG.md DESTINATION share/doc/heatwork)
install(DIRECTORY docs/how-to DESTINATION share/doc/heatwork FILES_MATCHING PATTERN "*.md")
install(FILES LICENSE DESTINATION share/doc/heatwork RENAME copyright)
install(DIRECTORY docs/records DESTINATION share/doc/heatwork OPTIONAL FILES_MATCHING PATTERN "*.md")
install(DIRECTORY packages/systemd/ DESTINATION lib/systemd/system)

# The verbs tell of themselves: both follow from the binary. A name in the manual's own folder, so that `man` finds it.
find_program(HEATWORK_GZIP gzip REQUIRED)
add_custom_command(OUTPUT manual/heatwork.1.gz manual/heatwork.bash
  COMMAND ${CMAKE_COMMAND} -E make_directory manual
  COMMAND $<TARGET_FILE:heatwork> manual > manual/heatwork.1
  COMMAND ${HEATWORK_GZIP} -9nf manual/heatwork.1
  COMMAND $<TARGET_FILE:heatwork> manual --completion > manual/heatwork.bash
  DEPENDS heatwork VERBATIM)
add_custom_target(heatwork_manual DEPENDS manual/heatwork.1.gz manual/heatwork.bash)
install(CODE "execute_process(COMMAND \"${CMAKE_COMMAND}\" --build \"${CMAKE_BINARY_DIR}\" --target heatwork_manual COMMAND_ERROR_IS_FATAL ANY OUTPUT_QUIET)")
install(FILES "${CMAKE_BINARY_DIR}/manual/heatwork.1.gz" DESTINATION share/man/man1)
install(FILES "${CMAKE_BINARY_DIR}/manual/heatwork.bash" DESTINATION share/bash-completion/completions RENAME heatwork)

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
set(CPACK_DEBIAN_PACKAGE_CONTROL_EXTRA
  "${CMAKE_SOURCE_DIR}/packages/debian/preinst" "${CMAKE_SOURCE_DIR}/packages/debian/postinst"
  "${CMAKE_SOURCE_DIR}/packages/debian/prerm" "${CMAKE_SOURCE_DIR}/packages/debian/postrm")
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION TRUE)
include(CPack)
