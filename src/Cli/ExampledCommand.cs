using System.CommandLine;

namespace Athwart.Cli;

/// <summary>A command whose help ends with examples.</summary>
internal sealed class ExampledCommand : Command
{
    public ExampledCommand(string name, string description, params string[] examples)
        : base(name, description) => Examples = examples;

    /// <summary>Whole command lines that work as they stand.</summary>
    public IReadOnlyList<string> Examples { get; }
}
