// The quantities of the job as types of their own, in whole small units, so that fifty syringes add up
// without drift and millilitres never meet kilograms. Numbers enter and leave only by name; there is no
// division here.
#pragma once
#include <compare>
#include <cstdint>

namespace brimline {

/// A whole number of one small unit. `Tag` keeps different quantities apart.
template <class Tag>
class Quantity {
public:
    constexpr Quantity() = default;
    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity{a.value_ + b.value_}; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity{a.value_ - b.value_}; }
    friend constexpr Quantity operator-(Quantity a) { return Quantity{-a.value_}; }
    friend constexpr Quantity operator*(Quantity a, std::int64_t n) { return Quantity{a.value_ * n}; }
    constexpr Quantity& operator+=(Quantity b) {
        value_ += b.value_;
        return *this;
    }
    constexpr Quantity& operator-=(Quantity b) {
        value_ -= b.value_;
        return *this;
    }

protected:
    explicit constexpr Quantity(std::int64_t value) : value_{value} {}
    std::int64_t value_{0};
};

/// Volume in tenths of a millilitre.
class Millilitres : public Quantity<struct VolumeTag> {
public:
    constexpr Millilitres() = default;
    constexpr Millilitres(Quantity<VolumeTag> q) : Quantity{q} {}
    [[nodiscard]] static constexpr Millilitres of_tenths(std::int64_t n) { return Millilitres{n}; }
    [[nodiscard]] constexpr std::int64_t in_tenths() const { return value_; }

private:
    explicit constexpr Millilitres(std::int64_t n) : Quantity{n} {}
};

/// Drug mass in micrograms.
class Micrograms : public Quantity<struct DrugTag> {
public:
    constexpr Micrograms() = default;
    constexpr Micrograms(Quantity<DrugTag> q) : Quantity{q} {}
    [[nodiscard]] static constexpr Micrograms of(std::int64_t n) { return Micrograms{n}; }
    [[nodiscard]] constexpr std::int64_t in_micrograms() const { return value_; }

private:
    explicit constexpr Micrograms(std::int64_t n) : Quantity{n} {}
};

/// Body weight in tenths of a kilogram.
class Kilograms : public Quantity<struct WeightTag> {
public:
    constexpr Kilograms() = default;
    constexpr Kilograms(Quantity<WeightTag> q) : Quantity{q} {}
    [[nodiscard]] static constexpr Kilograms of_tenths(std::int64_t n) { return Kilograms{n}; }
    [[nodiscard]] constexpr std::int64_t in_tenths() const { return value_; }

private:
    explicit constexpr Kilograms(std::int64_t n) : Quantity{n} {}
};

/// Length in tenths of a centimetre.
class Centimetres : public Quantity<struct LengthTag> {
public:
    constexpr Centimetres() = default;
    constexpr Centimetres(Quantity<LengthTag> q) : Quantity{q} {}
    [[nodiscard]] static constexpr Centimetres of_tenths(std::int64_t n) { return Centimetres{n}; }
    [[nodiscard]] constexpr std::int64_t in_tenths() const { return value_; }

private:
    explicit constexpr Centimetres(std::int64_t n) : Quantity{n} {}
};

consteval Millilitres operator""_mL(unsigned long long n) {
    return Millilitres::of_tenths(static_cast<std::int64_t>(n) * 10);
}
consteval Kilograms operator""_kg(unsigned long long n) {
    return Kilograms::of_tenths(static_cast<std::int64_t>(n) * 10);
}
consteval Micrograms operator""_mg(unsigned long long n) {
    return Micrograms::of(static_cast<std::int64_t>(n) * 1000);
}

}  // namespace brimline
