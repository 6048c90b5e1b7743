using Athwart.Quantities;

namespace Athwart.Jobs.Render;

/// <summary>Why a render was refused.</summary>
public enum RenderErrorKind
{
    /// <summary>What was asked cannot be done to this recording: a channel, range, rate or fade that it has not.</summary>
    Request = 0,

    /// <summary>The integer word cannot hold the result; a trim is needed.</summary>
    Overload,

    /// <summary>The recording holds samples that are no numbers, and an integer word has no place for them.</summary>
    NotANumber,

    /// <summary>The recipe cannot be read, or was written by a newer program.</summary>
    Recipe,

    /// <summary>A source file is missing or is not the one of the recipe.</summary>
    Source,
}

/// <summary>A refused render: what is wrong and what to do.</summary>
public sealed class RenderException : Exception
{
    /// <summary>Makes the error.</summary>
    public RenderException(RenderErrorKind kind, string message, Decibels? neededTrim = null, Exception? inner = null)
        : base(message, inner)
    {
        Kind = kind;
        NeededTrim = neededTrim;
    }

    /// <summary>Why it was refused.</summary>
    public RenderErrorKind Kind { get; }

    /// <summary>For an overload: the gain that would make it fit, rounded down to 0.01 dB; null otherwise.</summary>
    public Decibels? NeededTrim { get; }
}
