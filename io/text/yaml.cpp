// SPDX-License-Identifier: AGPL-3.0-or-later
// The only file that knows yaml-cpp. It is used as a stream of events; its own tree keeps duplicate keys,
// follows aliases and forgets places.
#include "io/text/yaml.hpp"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <sstream>

#include "io/text/nearest_key.hpp"
#include "io/text/text_encoding.hpp"

namespace crownproof {
namespace {

/// The text of a file by lines, to turn yaml-cpp's marks (line from 0, byte in the line from 0) into places.
class Lines {
 public:
  Lines(const std::string& text, std::string file) : text_(text), file_(std::move(file)), starts_{0} {
    for (std::size_t i = 0; i < text_.size(); ++i)
      if (text_[i] == '\n') starts_.push_back(i + 1);
  }

  /// Byte offset of a mark, kept inside the text.
  std::size_t offset(const YAML::Mark& mark) const {
    return std::min(starts_[line_of(mark)] + std::max(mark.column, 0), text_.size());
  }

  /// Columns count characters, as editors do, not bytes. Marks come nearly in order, so counting goes on from
  /// the last place; a line of a megabyte would else take minutes.
  Place place(const YAML::Mark& mark) {
    const std::size_t line = line_of(mark);
    const std::size_t at = offset(mark);
    if (line != counted_line_ || at < counted_to_) {
      counted_line_ = line;
      counted_to_ = starts_[line];
      column_ = 1;
    }
    for (; counted_to_ < at; ++counted_to_)
      column_ += (static_cast<unsigned char>(text_[counted_to_]) & 0xC0) != 0x80;
    return {file_, static_cast<int>(line) + 1, column_};
  }

  /// True if a quoted scalar that opens at the mark is closed; yaml-cpp takes the end of the file for a
  /// quote.
  bool quote_is_closed(const YAML::Mark& mark) const {
    const std::size_t open = offset(mark);
    const char quote = open < text_.size() ? text_[open] : ' ';
    if (quote != '"' && quote != '\'') return true;  // a block of text
    for (std::size_t i = open + 1; i < text_.size(); ++i) {
      const bool doubled =
          quote == '\'' && text_[i] == quote && i + 1 < text_.size() && text_[i + 1] == quote;
      if (doubled || (quote == '"' && text_[i] == '\\'))
        ++i;  // an escaped character
      else if (text_[i] == quote)
        return true;
    }
    return false;
  }

  /// True if the line of a mark is indented with a tab.
  bool starts_with_tab(const YAML::Mark& mark) const {
    const std::size_t start = starts_[line_of(mark)];
    const std::size_t first_visible = std::min(text_.find_first_not_of(" \t", start), text_.size());
    return text_.substr(start, first_visible - start).find('\t') != std::string::npos;
  }

 private:
  std::size_t line_of(const YAML::Mark& mark) const {
    return std::min<std::size_t>(std::max(mark.line, 0), starts_.size() - 1);
  }

  const std::string& text_;
  std::string file_;
  std::vector<std::size_t> starts_;
  std::size_t counted_line_ = 0, counted_to_ = 0;
  int column_ = 1;
};

/// Builds the tree from yaml-cpp's events (its interface asks for inheritance). A stack holds the collections
/// that are still open.
class TreeBuilder final : public YAML::EventHandler {
 public:
  explicit TreeBuilder(Lines& lines) : lines_(lines) {}

  const YamlNode& root() const { return root_; }

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    refuse_anchor(mark, anchor);
    YamlNode node;
    node.place = place(mark);
    add(std::move(node));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    throw UserError(place(mark), "aliases (*name) are not used in these files. Write the value out.");
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    refuse_anchor(mark, anchor);
    YamlNode node;
    node.kind = YamlKind::scalar;
    node.place = place(mark);
    node.text = value;
    node.quoted = tag == "!";  // yaml-cpp's sign for quoted and block scalars; "?" for plain ones
    if (!node.quoted) refuse_tag(mark, tag);
    if (node.quoted && !lines_.quote_is_closed(mark))
      throw UserError(place(mark), "the quote that opens here is never closed.");
    const bool is_null =
        !node.quoted && (value == "~" || value == "null" || value == "Null" || value == "NULL");
    if (is_null && !expects_key()) node.kind = YamlKind::nothing;
    add(std::move(node));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(YamlKind::list, mark, tag, anchor);
  }
  void OnSequenceEnd() override { close(); }

  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(YamlKind::map, mark, tag, anchor);
  }
  void OnMapEnd() override { close(); }

 private:
  Place place(const YAML::Mark& mark) { return lines_.place(mark); }

  void refuse_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) {
    if (anchor != YAML::NullAnchor)
      throw UserError(place(mark), "anchors (&name) are not used in these files. Write the value out.");
  }

  void refuse_tag(const YAML::Mark& mark, const std::string& tag) {
    if (!tag.empty() && tag != "?")
      throw UserError(place(mark),
                      fmt::format("tags such as '{}' are not used in these files. Write the plain value.",
                                  shortened(tag)));
  }

  bool expects_key() const {
    return !open_.empty() && open_.back().kind == YamlKind::map &&
           open_.back().keys.size() == open_.back().items.size();
  }

  void open(YamlKind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    if (expects_key()) throw UserError(place(mark), "a key must be a plain word, not a list or a map.");
    if (static_cast<int>(open_.size()) >= deepest_yaml)
      throw UserError(place(mark), fmt::format("nested deeper than {} levels. No case needs that; check the "
                                               "brackets and the indentation.",
                                               deepest_yaml));
    YamlNode node;
    node.kind = kind;
    node.place = place(mark);
    open_.push_back(std::move(node));
  }

  void close() {
    YamlNode done = std::move(open_.back());
    open_.pop_back();
    add(std::move(done));
  }

  void add(YamlNode node) {
    if (open_.empty()) {
      root_ = std::move(node);
    } else if (expects_key()) {
      add_key(std::move(node));
    } else {
      YamlNode& parent = open_.back();
      // An empty value has no place of its own; its key has.
      if (node.kind == YamlKind::nothing && parent.kind == YamlKind::map)
        node.place = parent.keys.back().place;
      parent.items.push_back(std::move(node));
    }
  }

  void add_key(YamlNode node) {
    if (node.kind != YamlKind::scalar || node.text.empty())
      throw UserError(node.place, "there is a value without a key. Write 'key: value'.");
    if (node.text == "<<" && !node.quoted)
      throw UserError(node.place, "merge keys (<<) are not used in these files. Write the values out.");
    std::vector<YamlKey>& keys = open_.back().keys;
    const auto same = [&](const YamlKey& key) { return key.text == node.text; };
    const auto earlier = std::find_if(keys.begin(), keys.end(), same);
    if (earlier != keys.end())
      throw UserError(node.place,
                      fmt::format("the key '{}' is given twice; the first time on line {}. Keep one "
                                  "of them.",
                                  shortened(node.text), earlier->place.line));
    if (static_cast<int>(keys.size()) >= most_yaml_keys)
      throw UserError(node.place,
                      fmt::format("more than {} keys in one place; no case needs that.", most_yaml_keys));
    keys.push_back({node.text, node.place});
  }

  Lines& lines_;
  YamlNode root_;
  std::vector<YamlNode> open_;
};

/// The parser's complaint in our voice, with the usual cause if it can be seen.
UserError syntax_error(const YAML::Exception& error, Lines& lines) {
  const char* remedy = lines.starts_with_tab(error.mark)
                           ? "Indent with spaces, not with tabs."
                           : "Check the indentation, the brackets and the quotes here and just above.";
  return {lines.place(error.mark), fmt::format("this is not valid YAML ({}). {}", error.msg, remedy)};
}

}  // namespace

const YamlNode* YamlNode::find(const std::string& key) const {
  for (std::size_t i = 0; i < keys.size(); ++i)
    if (keys[i].text == key) return &items[i];
  return nullptr;
}

YamlNode parse_yaml(const std::string& text, const std::string& file) {
  const std::string clean = checked_utf8(text, file);
  std::istringstream stream(clean);
  Lines lines(clean, file);
  TreeBuilder builder(lines);
  try {
    YAML::Parser parser(stream);
    if (!parser.HandleNextDocument(builder)) throw UserError(Place{file}, "the file is empty.");
    TreeBuilder second(lines);
    if (parser.HandleNextDocument(second) && second.root().kind != YamlKind::nothing)
      throw UserError(second.root().place,
                      "the file holds a second document (after ---). Put it into a file "
                      "of its own.");
  } catch (const YAML::Exception& error) {
    throw syntax_error(error, lines);
  }
  return builder.root();
}

YamlNode read_yaml(const std::filesystem::path& file) {
  return parse_yaml(read_text_file(file), file.string());
}

std::string describe(const YamlNode& node) {
  switch (node.kind) {
    case YamlKind::nothing:
      return "nothing";
    case YamlKind::scalar:
      return fmt::format("'{}'", shortened(node.text));
    case YamlKind::list:
      return "a list";
    case YamlKind::map:
      return "a map of keys";
  }
  return "nothing";
}

}  // namespace crownproof
