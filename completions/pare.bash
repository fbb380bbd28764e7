# Completion of pare for bash. The program itself says what a line may go on with.

_pare() {
    local line=${COMP_LINE:0:COMP_POINT} kept= candidate
    local -a words
    read -a words <<<"$line" # without -r: "a\ b" is one word
    [[ $line == *[!\\][[:space:]] ]] && words+=("")
    # bash replaces only what stands behind the last of its word breaks.
    local current=${words[${#words[@]} - 1]} breaks=${COMP_WORDBREAKS//[^=:]/}
    [[ $breaks && $current == *[$breaks]* ]] && kept=${current%"${current##*[$breaks]}"}
    COMPREPLY=()
    while IFS= read -r candidate; do
        [[ $candidate == *[=,:/.] ]] && compopt -o nospace 2>/dev/null
        candidate=${candidate#"$kept"}
        [[ $candidate == *[!A-Za-z0-9_.,:=/~+@%-]* ]] && printf -v candidate %q "$candidate"
        COMPREPLY+=("${candidate/#\\\~\//\~/}") # a ~ stands for the home folder
    done < <("${words[0]/#\~/$HOME}" complete -- "${words[@]:1}" 2>/dev/null)
}
complete -F _pare pare
