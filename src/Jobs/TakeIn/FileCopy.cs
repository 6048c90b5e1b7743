using Microsoft.Win32.SafeHandles;

namespace Athwart.Jobs.TakeIn;

/// <summary>One copy on its way through the pipeline.</summary>
/// <param name="card">The file on the card.</param>
/// <param name="target">The full path the copy is to have.</param>
internal sealed class FileCopy(CardFile card, string target)
{
    private FileFailure? _failure;

    public CardFile Card { get; } = card;

    public string Target { get; } = target;

    public string Part { get; } = PartNames.For(target);

    /// <summary>The open part; null until it was made.</summary>
    public SafeFileHandle? Handle { get; set; }

    /// <summary>The SHA-256 of what was read from the card; completed by the hasher. Continuations stay off its thread.</summary>
    public TaskCompletionSource<byte[]> CardHash { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Why it failed, the first reason; null while all is well.</summary>
    public FileFailure? Failure => Volatile.Read(ref _failure);

    public void Fail(FileFailure failure) => Interlocked.CompareExchange(ref _failure, failure, null);
}
