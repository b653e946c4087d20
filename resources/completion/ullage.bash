# SPDX-License-Identifier: GPL-3.0-or-later
# Completion of ullage's command line for bash.
_ullage() {
    local current=${COMP_WORDS[COMP_CWORD]} previous=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]}
    local commands='forecast report measure solve outage check'
    COMPREPLY=()
    case $previous in
        --for) mapfile -t COMPREPLY < <(compgen -W 'link-rate usable ladder order-date' -- "$current"); return ;;
        --paper) mapfile -t COMPREPLY < <(compgen -W 'a4 letter' -- "$current"); return ;;
        --language) mapfile -t COMPREPLY < <(compgen -W 'en de' -- "$current"); return ;;
        --pictures) mapfile -t COMPREPLY < <(compgen -d -- "$current"); return ;;
        --paths | --seed | --threads | --as-of | --confidence | --days | --from | --box | --send | --columns) return ;;
        --json | --csv | --pdf | --html | --logo | --rates) mapfile -t COMPREPLY < <(compgen -f -- "$current"); return ;;
    esac
    if [[ $current == -* ]]; then
        local futures='--paths --seed --threads --as-of --allow-outside' options
        case $command in
            forecast) options="$futures --language --json --csv --pictures" ;;
            report) options="$futures --language --pdf --html --paper --logo" ;;
            measure) options='--columns --skip-bad-lines --json' ;;
            solve) options="$futures --language --for --box --send --confidence --rates --json" ;;
            outage) options="$futures --language --send --from --days --json" ;;
            check) options='--allow-outside' ;;
            *) options="$futures --help --version" ;;
        esac
        mapfile -t COMPREPLY < <(compgen -W "$options" -- "$current")
        return
    fi
    local pattern='*.site.json'
    [[ $command == measure ]] && pattern='*'
    mapfile -t COMPREPLY < <(compgen -f -X "!$pattern" -- "$current"; compgen -d -- "$current")
    ((COMP_CWORD == 1)) && mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(compgen -W "$commands" -- "$current")
    compopt -o filenames 2>/dev/null
}
complete -F _ullage ullage
