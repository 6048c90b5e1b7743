using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Athwart.Cli;

/// <summary>The usual help, then the command's examples.</summary>
internal sealed class HelpWithExamples(HelpAction usual) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    /// <remarks>Who asks for help has not written the command in full yet: what is missing from it is no error.</remarks>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        var result = usual.Invoke(parseResult);
        if (parseResult.CommandResult.Command is ExampledCommand { Examples.Count: > 0 } command)
        {
            var output = parseResult.InvocationConfiguration.Output;
            output.WriteLine("Examples:");
            foreach (var example in command.Examples)
                output.WriteLine("  " + example);
            output.WriteLine();
        }

        return result;
    }
}
