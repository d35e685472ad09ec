# What `cmake --install` lays down: headers, the package that find_package(handlaid) reads, and the licence.
include(CMakePackageConfigHelpers)
include(GNUInstallDirs)

set(package_folder "${CMAKE_INSTALL_DATADIR}/cmake/handlaid")
install(TARGETS handlaid EXPORT handlaidTargets)
install(DIRECTORY "${PROJECT_SOURCE_DIR}/include/" DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}" FILES_MATCHING
        PATTERN "*.hpp")
install(EXPORT handlaidTargets NAMESPACE handlaid:: DESTINATION "${package_folder}")
install(FILES "${PROJECT_SOURCE_DIR}/LICENSE" DESTINATION "${CMAKE_INSTALL_DATADIR}/licenses/handlaid")

configure_package_config_file("${CMAKE_CURRENT_LIST_DIR}/handlaidConfig.cmake.in"
                              "${PROJECT_BINARY_DIR}/handlaidConfig.cmake" INSTALL_DESTINATION "${package_folder}")
# Below 1.0 a new minor version may break; the same one does not.
write_basic_package_version_file("${PROJECT_BINARY_DIR}/handlaidConfigVersion.cmake" COMPATIBILITY SameMinorVersion
                                 ARCH_INDEPENDENT)
install(FILES "${PROJECT_BINARY_DIR}/handlaidConfig.cmake" "${PROJECT_BINARY_DIR}/handlaidConfigVersion.cmake"
              "${CMAKE_CURRENT_LIST_DIR}/FindStb.cmake" DESTINATION "${package_folder}")
