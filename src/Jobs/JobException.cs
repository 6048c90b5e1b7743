namespace Athwart.Jobs;

/// <summary>Why a job was refused; the command line turns each into its own exit code.</summary>
public enum JobErrorKind
{
    /// <summary>The request contradicts itself or names something that is not there.</summary>
    WrongUse = 0,

    /// <summary>Going on would lose or spoil something: a clipped output, a file that exists already.</summary>
    Refused,

    /// <summary>A file or a folder cannot be read or written, or is not what the catalogue says it is.</summary>
    Storage,
}

/// <summary>A job that cannot be done, with the place, the rule and what to do next.</summary>
public sealed class JobException : Exception
{
    /// <summary>A refusal with its remedy.</summary>
    /// <param name="kind">Why.</param>
    /// <param name="message">What is wrong and where, one sentence.</param>
    /// <param name="remedy">What to do, one sentence; empty when nothing can be done.</param>
    /// <param name="inner">The cause, if another failure caused it.</param>
    public JobException(JobErrorKind kind, string message, string remedy, Exception? inner = null)
        : base(string.IsNullOrEmpty(remedy) ? message : message + " " + remedy, inner)
    {
        Kind = kind;
        Remedy = remedy;
    }

    /// <summary>Why.</summary>
    public JobErrorKind Kind { get; }

    /// <summary>What to do next.</summary>
    public string Remedy { get; }
}
