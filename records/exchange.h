// The store as open text: one JSON file, a row a line in a fixed order, that other programs can read; and the way back.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "records/store.h"
#include "records/verify.h"

namespace heatwork::records {

/// Takes the next bytes of a text.
using Sink = std::function<void(std::string_view)>;

/// Writes the whole store as JSON in a fixed order: the same on both engines. Returns its hash, BLAKE2b-256 over the bytes.
std::string export_json(Store& store, const Sink& sink, const Watch& watch = {});
/// The same hash without the text.
std::string export_hash(Store& store, const Watch& watch = {});

/// Takes the next bytes of the file of a name ("trail.csv").
using FolderSink = std::function<void(std::string_view file, std::string_view bytes)>;
/// Writes heads, uses, dues and trail as tables for spreadsheets (RFC 4180, UTF-8, a line of names first), rows in a fixed order.
void export_csv(Store& store, const FolderSink& sink, const Watch& watch = {});

/// Gives the text line by line, without line ends; nothing at the end.
using Lines = std::function<std::optional<std::string>()>;
/// Makes a store from an export where none stands, and proves it. Returns the export hash, that of the text.
/// Errors: StoreError with the line; then nothing is left there.
std::string import_json(const Lines& lines, const Address& to, const Opening& opening, const Watch& watch = {});

}  // namespace heatwork::records
