using System.CommandLine;

namespace Athwart.Cli.Commands;

/// <summary><c>completion</c>: a script by which a shell completes our commands.</summary>
internal static class CompletionCommand
{
    public const string Summary = "Print a script by which the shell completes Athwart's commands and options.";

    private const string Bash = """
        _athwart() {
            local IFS=$'\n'
            COMPREPLY=($(compgen -W "$(athwart "[suggest:${COMP_POINT}]" "${COMP_LINE}" 2>/dev/null)" -- "${COMP_WORDS[COMP_CWORD]}"))
        }
        complete -o default -F _athwart athwart
        """;

    private const string Zsh = """
        #compdef athwart
        _athwart() {
            local -a words_found
            words_found=("${(@f)$(athwart "[suggest:${#BUFFER}]" "${BUFFER}" 2>/dev/null)}")
            compadd -a words_found
            _files
        }
        compdef _athwart athwart
        """;

    private const string Fish = """
        complete -c athwart -a '(athwart "[suggest:"(commandline -C)"]" (commandline -p) 2>/dev/null)'
        """;

    public static Command Create(Screen screen)
    {
        var shell = new Argument<string>("SHELL") { Description = "bash, zsh or fish." };
        shell.AcceptOnlyFromAmong("bash", "zsh", "fish");
        var command = new ExampledCommand(
            "completion",
            Summary,
            "athwart completion bash > ~/.local/share/bash-completion/completions/athwart")
        { shell };
        command.SetAction(parsed => screen.Line(parsed.GetValue(shell) switch
        {
            "zsh" => Zsh,
            "fish" => Fish,
            _ => Bash,
        }));
        return command;
    }
}
