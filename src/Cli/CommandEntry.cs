using System.CommandLine;

namespace Athwart.Cli;

/// <summary>A command before it is built.</summary>
/// <param name="Name">The word that calls it.</param>
/// <param name="Summary">What it does, as its help begins.</param>
/// <param name="Create">Builds it with all its options.</param>
internal sealed record CommandEntry(string Name, string Summary, Func<Screen, Command> Create);
