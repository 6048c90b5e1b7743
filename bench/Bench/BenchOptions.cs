using System.Globalization;

namespace Athwart.Bench;

/// <summary>What the person at the keyboard asked for.</summary>
internal sealed record BenchOptions
{
    internal const string Usage =
        """
        dotnet run --project bench/Bench -c Release -- [options]
          --athwart FILE   the published native executable; artifacts/native/athwart unless said
          --work DIR       where inputs and outputs go, about 2.5 GB; bench/work unless said
          --rounds N       rounds of each contest, 5 unless said
          --only TEXT      only contests whose name contains the text
          --references     only the other programs, without athwart
          --write          write docs/benchmarks.md
        """;

    public string? Athwart { get; private init; }

    public string? Work { get; private init; }

    public int Rounds { get; private init; } = 5;

    public string Only { get; private init; } = "";

    public bool References { get; private init; }

    public bool Write { get; private init; }

    /// <summary>Null when a word is not known or a value is missing.</summary>
    public static BenchOptions? Parse(string[] words)
    {
        var options = new BenchOptions();
        for (var i = 0; i < words.Length; i++)
        {
            var value = i + 1 < words.Length ? words[i + 1] : null;
            var next = (words[i], value) switch
            {
                ("--references", _) => options with { References = true },
                ("--write", _) => options with { Write = true },
                ("--athwart", not null) => options with { Athwart = value },
                ("--work", not null) => options with { Work = value },
                ("--only", not null) => options with { Only = value },
                ("--rounds", not null) when int.TryParse(value, CultureInfo.InvariantCulture, out var rounds) && rounds > 0 => options with { Rounds = rounds },
                _ => null,
            };
            if (next is null)
                return null;
            options = next;
            if (words[i] is not ("--references" or "--write"))
                i++;
        }

        return options;
    }
}
