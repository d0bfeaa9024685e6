// What a machine's settings file says of its lab, and where the lab's store is when nobody names one.
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace heatwork::desk {

/// docs/formats/settings.md. A text that is empty was not set.
struct Settings {
  std::string store;     ///< address
  std::string person;    ///< code
  std::string zone;      ///< "Europe/Berlin"
  std::string language;  ///< "en", "de"
  std::string units;     ///< "celsius", "fahrenheit"
  std::string backups;   ///< folder
  std::string backups_every;
  int backups_kept = 0;  ///< 0: all
};

/// Value of a variable of the environment, "" where it is not set; handed in so that a test need not change its own.
using Variables = std::function<std::string(const char* name)>;
Variables variables_of_process();

/// Where the settings are sought: $XDG_CONFIG_HOME/heatwork, else ~/.config/heatwork, else (a service without a home) /etc/heatwork.
std::string settings_file(const Variables& variables);
/// Errors: trade::Mistake, located.
Settings read_settings(std::string_view source_name, std::string_view text);
/// Those of this machine; nothing is set where there is no file. Errors: trade::Mistake; Failure cannot_read.
Settings settings_of(const Variables& variables);

/// The language that the settings of this machine name, whatever else may be wrong with them; "" where they name none or cannot be read.
std::string language_of_settings(const Variables& variables);

/// Where this machine keeps what is its own: $XDG_DATA_HOME/heatwork, else ~/.local/share/heatwork, else (a service without a home)
/// /var/lib/heatwork.
std::string data_folder(const Variables& variables);

/// Address of the store: the one asked for, else HEATWORK_STORE, else the setting, else lab.sqlite among the person's data.
std::string store_address(const std::string& asked, const Settings& settings, const Variables& variables);

}  // namespace heatwork::desk
