// The physician's short name.
#include "app/kiosk/screens/whose_word.h"

#include "app/kiosk/screens/names.h"

namespace brimline::screens {

std::string whose_word(const Scene& scene) { return short_name(scene.ahead, scene.physician); }

std::string said_by_words(const touch::Glass& glass, const Scene& scene) {
    return glass.words().say("case.said-by", {{"name", whose_word(scene)}});
}

}  // namespace brimline::screens
