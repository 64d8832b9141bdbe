# What is installed: program, library, public headers, manual pages, package files for CMake and pkg-config.
include(CMakePackageConfigHelpers)

if(NOT BUILD_SHARED_LIBS)
  set(BUILD_SHARED_LIBS OFF)
endif()
set(plmi_package_dir "${CMAKE_INSTALL_LIBDIR}/cmake/plimsoll")

install(TARGETS libplimsoll EXPORT plimsollTargets)
if(TARGET plimsoll)
  install(TARGETS plimsoll)
endif()
install(DIRECTORY "${PROJECT_SOURCE_DIR}/include/plimsoll" DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}")
foreach(section 1 3 5 7)
  install(DIRECTORY "${PROJECT_SOURCE_DIR}/man/" DESTINATION "${CMAKE_INSTALL_MANDIR}/man${section}"
    FILES_MATCHING PATTERN "*.${section}")
endforeach()

install(FILES "${PROJECT_SOURCE_DIR}/src/report/view/debrief-1.schema.json" DESTINATION "${CMAKE_INSTALL_DATADIR}/plimsoll")

install(EXPORT plimsollTargets NAMESPACE plimsoll:: DESTINATION "${plmi_package_dir}")
configure_package_config_file("${PROJECT_SOURCE_DIR}/src/plimsollConfig.cmake.in"
  "${PROJECT_BINARY_DIR}/plimsollConfig.cmake" INSTALL_DESTINATION "${plmi_package_dir}")
write_basic_package_version_file("${PROJECT_BINARY_DIR}/plimsollConfigVersion.cmake" COMPATIBILITY SameMinorVersion)
install(FILES "${PROJECT_BINARY_DIR}/plimsollConfig.cmake" "${PROJECT_BINARY_DIR}/plimsollConfigVersion.cmake"
  "${PROJECT_SOURCE_DIR}/src/libraries.cmake" DESTINATION "${plmi_package_dir}")

# The prefix as seen from the package file, so that an installed tree can be moved.
file(RELATIVE_PATH PLMI_PC_TO_PREFIX "/prefix/${CMAKE_INSTALL_LIBDIR}/pkgconfig" "/prefix")
configure_file("${PROJECT_SOURCE_DIR}/src/plimsoll.pc.in" "${PROJECT_BINARY_DIR}/plimsoll.pc" @ONLY)
install(FILES "${PROJECT_BINARY_DIR}/plimsoll.pc" DESTINATION "${CMAKE_INSTALL_LIBDIR}/pkgconfig")
