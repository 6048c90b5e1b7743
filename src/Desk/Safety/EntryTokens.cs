using System.Security.Cryptography;
using System.Text;

namespace Athwart.Desk.Safety;

/// <summary>The tokens of links into the desk: each lets one browser in, once.</summary>
internal sealed class EntryTokens(TimeProvider clock)
{
    /// <summary>How long a link may wait.</summary>
    public static readonly TimeSpan Lifetime = TimeSpan.FromMinutes(30);

    private readonly Lock _turn = new();
    private readonly Dictionary<string, DateTimeOffset> _waiting = new(StringComparer.Ordinal);

    /// <summary>A new token of 256 random bits; only its hash is kept.</summary>
    public string New()
    {
        var token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));
        lock (_turn)
            _waiting[HashOf(token)] = clock.GetUtcNow() + Lifetime;
        return token;
    }

    /// <summary>Whether the token lets in; it never does so again.</summary>
    public bool Use(string? token)
    {
        if (string.IsNullOrEmpty(token))
            return false;
        // Found by hash: how long the search takes says nothing about the token.
        lock (_turn)
            return _waiting.Remove(HashOf(token), out var until) && clock.GetUtcNow() <= until;
    }

    private static string HashOf(string token) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
}
