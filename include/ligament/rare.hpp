// How does a part that most elements do without take little room in them?
#pragma once

#include <concepts>
#include <memory>
#include <type_traits>
#include <utility>

namespace ligament {

/// A value or nothing, to be used as std::optional is; it copies and compares as that does. The value stands on the heap, so that
/// nothing takes eight bytes.
template <class T>
class Rare {
  public:
    Rare() = default;
    Rare(T value) : value_(std::make_unique<T>(std::move(value))) {}
    Rare(const Rare& other) : value_(other ? std::make_unique<T>(*other) : nullptr) {}
    Rare(Rare&& other) noexcept = default;
    ~Rare() = default;
    Rare& operator=(const Rare& other) { return *this = Rare(other); }
    Rare& operator=(Rare&& other) noexcept = default;
    template <class U = T>
    requires(!std::same_as<std::remove_cvref_t<U>, Rare> && std::constructible_from<T, U>) Rare& operator=(U&& value) {
        value_ = std::make_unique<T>(std::forward<U>(value));
        return *this;
    }

    T& emplace() { return *(value_ = std::make_unique<T>()); }
    void reset() { value_.reset(); }

    bool has_value() const { return value_ != nullptr; }
    explicit operator bool() const { return has_value(); }
    T& operator*() { return *value_; }
    const T& operator*() const { return *value_; }
    T* operator->() { return value_.get(); }
    const T* operator->() const { return value_.get(); }
    T value_or(T otherwise) const { return value_ ? *value_ : std::move(otherwise); }

    friend bool operator==(const Rare& a, const Rare& b) {
        return a.has_value() == b.has_value() && (!a.has_value() || *a == *b);
    }

  private:
    std::unique_ptr<T> value_;
};

}  // namespace ligament
