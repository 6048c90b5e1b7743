using System.Globalization;
using System.Net;

namespace Athwart.Desk;

/// <summary>How the desk was started.</summary>
internal sealed record DeskOptions
{
    /// <summary>The port that is tried first: the same each day, so that an open page finds the desk again.</summary>
    public const int UsualPort = 4786;

    /// <summary>The library's folder, a full path; it may not be there yet.</summary>
    public required string Library { get; init; }

    /// <summary>Folders that may be looked into for cards, full paths.</summary>
    public IReadOnlyList<string> CardFolders { get; init; } = [];

    /// <summary>Where the system mounts cards, asked while the desk runs.</summary>
    public Func<IReadOnlyList<string>> Mounts { get; init; } = Athwart.Jobs.Cards.CardFolders.Mounts;

    /// <summary>The folder deliveries are written into, a full path.</summary>
    public required string Deliveries { get; init; }

    /// <summary>The address listened on; this machine only unless said.</summary>
    public IPAddress Address { get; init; } = IPAddress.Loopback;

    /// <summary>The port; null for the usual one or, when that is taken, a free one. 0 is a free one.</summary>
    public int? Port { get; init; }

    /// <summary>Whether the link is only printed and no browser opened.</summary>
    public bool PrintLink { get; init; }

    /// <summary>Where the key that signs visits is kept, a full path; readable by its owner only.</summary>
    public required string StateFolder { get; init; }

    /// <summary>Whether only programs of this machine can reach the desk.</summary>
    public bool IsThisMachineOnly => IPAddress.IsLoopback(Address);

    /// <summary>Reads the command line.</summary>
    /// <exception cref="DeskException">An option is not known or its value makes no sense.</exception>
    public static DeskOptions Parse(IReadOnlyList<string> arguments)
    {
        ArgumentNullException.ThrowIfNull(arguments);
        string? library = null, deliveries = null;
        var cards = new List<string>();
        var options = new DeskOptions { Library = "", Deliveries = "", StateFolder = UsualStateFolder() };
        for (var i = 0; i < arguments.Count; i++)
        {
            var name = arguments[i];
            if (name is "--print-link")
            {
                options = options with { PrintLink = true };
                continue;
            }

            if (name is not ("--library" or "--card-folder" or "--deliveries" or "--listen" or "--port"))
                throw new DeskException($"There is no option '{name}'.", "The options are --library DIR, --card-folder DIR, --deliveries DIR, --port N, --listen ADDRESS and --print-link.");
            if (++i == arguments.Count)
                throw new DeskException($"{name} wants a value.", "Write it behind the option.");
            var value = arguments[i];
            switch (name)
            {
                case "--library": library = value; break;
                case "--card-folder": cards.Add(Path.GetFullPath(value)); break;
                case "--deliveries": deliveries = value; break;
                case "--listen": options = options with { Address = ParseAddress(value) }; break;
                default: options = options with { Port = ParsePort(value) }; break;
            }
        }

        var folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(library ?? UsualLibrary(Directory.GetCurrentDirectory())));
        return options with
        {
            Library = folder,
            CardFolders = [.. cards.Select(Path.TrimEndingDirectorySeparator)],
            Deliveries = Path.TrimEndingDirectorySeparator(Path.GetFullPath(deliveries ?? Path.Combine(Path.GetDirectoryName(folder) ?? folder, "deliveries"))),
        };
    }

    // The folder one stands in when it is a library, else the 'library' in it: where the demo puts one, too.
    private static string UsualLibrary(string here) =>
        File.Exists(Path.Combine(here, Athwart.Catalogue.Library.DatabaseName)) ? here : Path.Combine(here, "library");

    private static string UsualStateFolder() => Path.Combine(
        Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "athwart", "desk");

    private static IPAddress ParseAddress(string text) => IPAddress.TryParse(text, out var address)
        ? address
        : throw new DeskException($"'{text}' is no address to listen on.", "Write one as 127.0.0.1, 192.168.1.20 or 0.0.0.0.");

    private static int ParsePort(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var port) && port <= 65535
        ? port
        : throw new DeskException($"'{text}' is no port.", "Write a number from 0 to 65535; 0 takes a free one.");
}

/// <summary>Something that keeps the desk from starting, with its remedy.</summary>
internal sealed class DeskException(string message, string remedy) : Exception(message + " " + remedy);
