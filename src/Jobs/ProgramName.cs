namespace Athwart.Jobs;

/// <summary>The name by which files we write say who wrote them.</summary>
public static class ProgramName
{
    /// <summary>'0.1.0'.</summary>
    public static string Version { get; } = typeof(ProgramName).Assembly.GetName().Version?.ToString(3) ?? "0";

    /// <summary>'Athwart 0.1.0'.</summary>
    public static string WithVersion { get; } = "Athwart " + Version;
}
