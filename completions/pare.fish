# Completion of pare for fish. The program itself says what a line may go on with.

function __pare_complete
    set -l words (commandline -opc)
    $words[1] complete -- $words[2..-1] (string unescape -- (commandline -ct)) 2>/dev/null
end

complete -c pare -f -a '(__pare_complete)'
