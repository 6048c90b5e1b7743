using System.CommandLine;
using Athwart.Microphones.Equipment;

namespace Athwart.Cli.Commands;

/// <summary>Where the kit comes from: the library, the demo kit, or nowhere.</summary>
internal sealed class KitSource
{
    private readonly Option<string?> _library = new("--library") { Description = "The library whose kit is looked in.", HelpName = "DIR" };
    private readonly Option<bool> _demo = new("--demo-kit") { Description = "Look in the invented kit of the demo." };

    public Option<bool> Overwrite { get; } = CommonOptions.Overwrite();

    public void AddTo(Command command)
    {
        command.Add(_library);
        command.Add(_demo);
        command.Add(Overwrite);
    }

    public Kit Read(ParseResult parsed) => parsed.GetValue(_demo) ? throw new NotSupportedException() : Kit.Empty;
}
