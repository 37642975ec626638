# Finds every dependency among the system's packages and makes one target of each; nothing is vendored.
find_package(PkgConfig REQUIRED)
find_package(Threads REQUIRED)
find_package(nlohmann_json 3.11 REQUIRED)     # nlohmann_json::nlohmann_json
find_package(fmt REQUIRED)                    # fmt::fmt
find_package(tl-expected REQUIRED)            # tl::expected
find_package(SQLite3 3.40 REQUIRED)           # SQLite::SQLite3
find_package(date REQUIRED)                   # date::date-tz
find_package(CLI11 REQUIRED)                  # CLI11::CLI11
find_package(Freetype REQUIRED)               # Freetype::Freetype
find_package(glfw3 3.3 REQUIRED)              # glfw
find_package(PNG REQUIRED)                    # PNG::PNG
pkg_check_modules(SODIUM REQUIRED IMPORTED_TARGET libsodium)
pkg_check_modules(IMGUI REQUIRED IMPORTED_TARGET imgui)
pkg_check_modules(PANGO REQUIRED IMPORTED_TARGET pangocairo cairo-pdf)
find_path(ZINT_INCLUDE_DIR zint.h REQUIRED)
find_library(ZINT_LIBRARY zint REQUIRED)

# libimgui.a is static: what it needs must come after it on the link line.
set_property(TARGET PkgConfig::IMGUI APPEND PROPERTY
  INTERFACE_LINK_LIBRARIES Freetype::Freetype glfw ${CMAKE_DL_LIBS})

# The OpenGL loader is generated while building, offline, by Debian's glad.
set(GLAD_DIR ${CMAKE_BINARY_DIR}/glad)
find_program(GLAD glad REQUIRED)
add_custom_command(
  OUTPUT ${GLAD_DIR}/src/gl.c ${GLAD_DIR}/include/glad/gl.h
  COMMAND ${GLAD} --quiet --reproducible --api gl:core=3.3 --extensions= --out-path ${GLAD_DIR} c
  VERBATIM)
add_library(glad_gl STATIC ${GLAD_DIR}/src/gl.c)
target_include_directories(glad_gl SYSTEM PUBLIC ${GLAD_DIR}/include)
