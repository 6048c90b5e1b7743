namespace Athwart.Jobs.Explain;

/// <summary>One kind of finding in plain words.</summary>
/// <param name="Kind">The kind, as findings name it.</param>
/// <param name="What">What it is.</param>
/// <param name="Heard">How it is heard.</param>
/// <param name="Avoid">How to avoid it next time, or what to do.</param>
public sealed record Explanation(string Kind, string What, string Heard, string Avoid);
