using System.Globalization;

namespace Athwart.Accuracy;

/// <summary>What to run.</summary>
internal sealed record Options
{
    /// <summary>How many scenes are drawn; each is checked as it is and with <see cref="FaultsOfAScene"/> faults, one at a time.</summary>
    public int Scenes { get; init; } = 60;

    /// <summary>The first scene's number.</summary>
    public int First { get; init; }

    /// <summary>How many faults each scene is given, one at a time.</summary>
    public int FaultsOfAScene { get; init; } = 9;

    /// <summary>Whether every scene is given every fault, one at a time.</summary>
    public bool Every { get; init; }

    /// <summary>Only the fault whose name holds this.</summary>
    public string? Fault { get; init; }

    /// <summary>Real recordings instead of scenes.</summary>
    public bool Real { get; init; }

    /// <summary>Whether takes are recordings.</summary>
    public bool Recorded => Real || Folder is not null;

    /// <summary>The probabilities for the kind of pair instead of faults.</summary>
    public bool Pairs { get; init; }

    /// <summary>The cost of each part instead of faults.</summary>
    public bool Cost { get; init; }

    /// <summary>Whether what was missed is listed.</summary>
    public bool List { get; init; }

    /// <summary>A file whose findings are printed instead: channels 1 and 2 as mid and side.</summary>
    public string? File { get; init; }

    /// <summary>A folder of stereo recordings that are used in place of scenes, in pieces of 12 s.</summary>
    public string? Folder { get; init; }

    /// <summary>Threads; 2.</summary>
    public int Threads { get; init; } = 2;

    public static Options Parse(string[] arguments)
    {
        var options = new Options();
        for (var i = 0; i < arguments.Length; i++)
        {
            int Number() => int.Parse(arguments[++i], CultureInfo.InvariantCulture);
            options = arguments[i] switch
            {
                // A take is a scene as it is, or with one fault.
                "--takes" => options with { Scenes = (Number() + options.FaultsOfAScene) / (options.FaultsOfAScene + 1) },
                "--scenes" => options with { Scenes = Number(), Every = true },
                "--first" => options with { First = Number() },
                "--fault" => options with { Fault = arguments[++i] },
                "--file" => options with { File = arguments[++i] },
                "--folder" => options with { Folder = arguments[++i] },
                "--threads" => options with { Threads = Number() },
                "--real" => options with { Real = true },
                "--pairs" => options with { Pairs = true },
                "--cost" => options with { Cost = true },
                "--list" => options with { List = true },
                _ => throw new ArgumentException($"'{arguments[i]}' is not known; give --takes N, --scenes N, --first N, --fault NAME, --file PATH, --folder PATH, --threads N, --real, --pairs, --cost, --list", nameof(arguments)),
            };
        }

        return options;
    }
}
