// The roles of the clinic and the set of them that a person has or that a command allows.
#pragma once
#include <array>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string_view>

namespace brimline {

enum class Role : std::uint8_t {
    assistant,
    physician,
    sedation_provider,
    nurse,
    coordinator,
    installer,
    kiosk
};

inline constexpr std::array<std::string_view, 7> role_names{
    "assistant", "physician", "sedation-provider", "nurse", "coordinator", "installer", "kiosk"};

[[nodiscard]] constexpr std::string_view name_of(Role role) {
    return role_names[static_cast<std::size_t>(role)];
}
[[nodiscard]] constexpr std::optional<Role> role_named(std::string_view name) {
    for (std::size_t i = 0; i < role_names.size(); ++i) {
        if (role_names[i] == name) {
            return static_cast<Role>(i);
        }
    }
    return std::nullopt;
}

/// A set of roles.
class Roles {
public:
    constexpr Roles() = default;
    constexpr Roles(std::initializer_list<Role> roles) {
        for (const Role role : roles) {
            add(role);
        }
    }
    constexpr void add(Role role) { bits_ = static_cast<std::uint8_t>(bits_ | bit(role)); }
    [[nodiscard]] constexpr bool has(Role role) const { return (bits_ & bit(role)) != 0; }
    [[nodiscard]] constexpr bool meets(Roles other) const { return (bits_ & other.bits_) != 0; }
    [[nodiscard]] constexpr bool empty() const { return bits_ == 0; }
    friend constexpr bool operator==(Roles, Roles) = default;

private:
    static constexpr std::uint8_t bit(Role role) {
        return static_cast<std::uint8_t>(1U << static_cast<unsigned>(role));
    }
    std::uint8_t bits_{0};
};

/// Who enters rescue while nobody is signed in (10-decisions F7); no id of a person.
inline constexpr std::string_view nobody_signed_in{"unknown"};

/// "any" of the command tables: every clinical role.
inline constexpr Roles any_clinical{Role::assistant, Role::physician, Role::sedation_provider, Role::nurse,
                                    Role::coordinator};

}  // namespace brimline
