// JSON that came in, read field by field, with errors that name the place: "acts[0].to[1].volume".
//
// Holds: every field of an object is asked for by name, and one that nobody asked for is refused with the nearest
// names; null counts as left out. The first error is kept and everything after it is passed over.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::api {

using Json = nlohmann::ordered_json;

enum class Need { may, must };

// Errors: where and what no JSON is, and a field that stands twice in one object.
[[nodiscard]] Result<Json> parse_json(const std::string& body);

class Fields {
public:
    // `object` must outlive the Fields. `where`: its place, empty for the whole body.
    Fields(const Json& object, std::string where);

    // Text as a person would type it, amounts too.
    void text(const char* name, std::string& into, Need need = Need::may);
    void texts(const char* name, std::vector<std::string>& into);
    // Of a text or a list of texts: one of them counts as a list of one.
    void text_or_texts(const char* name, std::vector<std::string>& into);
    void flag(const char* name, bool& into);
    // Bytes in base64 (RFC 4648).
    void bytes(const char* name, std::string& into);
    // At least one object where the list is there, each read by the fields_of() of its type.
    template <class T>
    void objects(const char* name, std::vector<T>& into, Need need = Need::must) {
        const Json* all = list(name, need);
        if (all != nullptr && all->empty()) return refuse(name, "The list is empty; at least one is wanted.");
        for (std::size_t i = 0; all != nullptr && i < all->size(); ++i) {
            Fields one((*all)[i], place(name, i));
            fields_of(one, into.emplace_back());
            take(one.done());
        }
    }
    void number(const char* name, std::int64_t& into, Need need = Need::may);
    // One of `words`.
    void word(const char* name, std::string& into, const std::vector<std::string>& words, Need need = Need::may);
    // What stands there, for the caller to read; nothing when it was left out.
    [[nodiscard]] const Json* object(const char* name, Need need = Need::may);
    [[nodiscard]] const Json* list(const char* name, Need need = Need::may);
    // The place of a field, and of an element of a list field.
    [[nodiscard]] std::string place(std::string_view name) const;
    [[nodiscard]] std::string place(std::string_view name, std::size_t index) const;

    void refuse(Error error);
    void refuse(std::string_view name, std::string what);
    // Takes over what another reading found wrong.
    template <class T>
    void take(const Result<T>& result) {
        if (!result) refuse(result.error());
    }
    // After everything was asked for. Nothing more is read then.
    [[nodiscard]] Result<void> done();

private:
    // The field, when it is there and no error stands.
    const Json* find(const char* name, Need need);

    const Json& m_object;
    std::string m_where;
    std::vector<std::string> m_asked;
    std::optional<Error> m_error;
    bool m_misses = false;  // the error is about something left out; a misspelt field is told first
};

}  // namespace undercroft::api
