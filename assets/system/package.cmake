# What is installed, and the Debian package made from it: `cpack` in the build folder.
include(GNUInstallDirs)
install(TARGETS brimline RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY ${CMAKE_SOURCE_DIR}/assets DESTINATION ${CMAKE_INSTALL_DATADIR}/brimline
  PATTERN system EXCLUDE PATTERN pictures EXCLUDE)
set(SYSTEM ${CMAKE_SOURCE_DIR}/assets/system)
install(FILES ${SYSTEM}/brimline.service DESTINATION lib/systemd/system)
install(FILES ${SYSTEM}/brimline.sysusers DESTINATION lib/sysusers.d RENAME brimline.conf)
install(FILES ${SYSTEM}/70-brimline-pedals.rules DESTINATION lib/udev/rules.d)
install(PROGRAMS ${SYSTEM}/brimline-xsession DESTINATION lib/brimline)
install(FILES ${SYSTEM}/brimline-kiosk.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/xsessions)
install(FILES ${SYSTEM}/brimline.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${SYSTEM}/org.example.brimline.metainfo.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/metainfo)
install(FILES ${SYSTEM}/brimline.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)

# The manual and the changelog are compressed as Debian asks, without a date inside, so that two builds are the same.
foreach(text brimline.1 changelog.Debian)
  add_custom_command(OUTPUT ${CMAKE_BINARY_DIR}/${text}.gz
    COMMAND gzip -9 -n -c ${SYSTEM}/${text} > ${CMAKE_BINARY_DIR}/${text}.gz DEPENDS ${SYSTEM}/${text} VERBATIM)
endforeach()
add_custom_target(brimline_packed_texts ALL DEPENDS ${CMAKE_BINARY_DIR}/brimline.1.gz ${CMAKE_BINARY_DIR}/changelog.Debian.gz)
install(FILES ${CMAKE_BINARY_DIR}/brimline.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${SYSTEM}/copyright DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/brimline)
install(FILES ${CMAKE_BINARY_DIR}/changelog.Debian.gz DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/brimline RENAME changelog.gz)
install(FILES ${SYSTEM}/policy-readme.md DESTINATION /etc/brimline/policy RENAME README.md)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME brimline)
set(CPACK_PACKAGE_CONTACT "The Brimline developers <brimline@example.org>")
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "bedside kiosk for placing and removing gastric balloons")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "Goes with an endoscopic team through the placing and the removal of
fluid-filled gastric balloons: safety checks, sedation record, the count
syringe by syringe, a blind read-back, recovery, discharge, a sealed record
and a register that loses nobody. It records, counts and reminds; it does
not decide, dose or diagnose and is not a certified medical device.")
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-b612, fonts-noto-core, libgl1, tzdata")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "cage, xwayland, minisign, cups-client")
set(CPACK_DEBIAN_PACKAGE_CONTROL_EXTRA ${SYSTEM}/preinst ${SYSTEM}/postinst ${SYSTEM}/postrm
  ${SYSTEM}/conffiles)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
include(CPack)
