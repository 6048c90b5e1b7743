using System.CommandLine;
using Athwart.Jobs;
using Athwart.Jobs.Kits;
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

    public Kit Read(ParseResult parsed)
    {
        var library = parsed.GetValue(_library);
        if (parsed.GetValue(_demo))
            return library is null ? DemoKit.Kit : throw new JobException(JobErrorKind.WrongUse, "The kit is said twice.", "Give --library or --demo-kit.");
        return library is null ? Kit.Empty : KitStore.Load(library);
    }
}
