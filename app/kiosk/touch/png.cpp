// Writes and reads pictures through the simple interface of libpng.
#include <fmt/format.h>
#include <png.h>

#include "app/kiosk/touch/picture.h"

namespace brimline::touch {

tl::expected<void, std::string> write_png(const Picture& picture, const std::string& file) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(picture.width);
    image.height = static_cast<png_uint_32>(picture.height);
    image.format = PNG_FORMAT_RGBA;
    if (png_image_write_to_file(&image, file.c_str(), 0, picture.pixels.data(), 0, nullptr) == 0) {
        return tl::unexpected(fmt::format("Picture {} cannot be written: {}.", file, image.message));
    }
    return {};
}

tl::expected<Picture, std::string> read_png(const std::string& file) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    if (png_image_begin_read_from_file(&image, file.c_str()) == 0) {
        return tl::unexpected(fmt::format("Picture {} cannot be read: {}.", file, image.message));
    }
    image.format = PNG_FORMAT_RGBA;
    Picture picture;
    picture.width = static_cast<int>(image.width);
    picture.height = static_cast<int>(image.height);
    picture.pixels.resize(static_cast<std::size_t>(image.width) * image.height);
    if (png_image_finish_read(&image, nullptr, picture.pixels.data(), 0, nullptr) == 0) {
        return tl::unexpected(fmt::format("Picture {} cannot be read: {}.", file, image.message));
    }
    return picture;
}

}  // namespace brimline::touch
